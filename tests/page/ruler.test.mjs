/* The gram ruler and the outline: what the keyboard and the pointer find on them is the command's. */
import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import { open, quit, serve } from './harness.mjs'

let bench
before(async () => (bench = await serve()))
after(async () => {
    await quit()
    await bench.stop()
})

const ruler_of = (...more) => bench.pare('sheet', 'hedgerow', '--ruler', ...more)
const full_name = ({ of, name }) => (of === 'joint' || of === 'run' ? `${of}.${name}` : name)
/* What is drawn as wide as its grams, in pixels a gram. */
const widths = (page) =>
    page.$$eval('[data-slice]', (all) =>
        Object.fromEntries(
            all.map((one) => [one.dataset.slice, one.querySelector('rect').getBoundingClientRect().width]),
        ),
    )

test('every slice is as wide as its grams', async () => {
    const { page, close } = await open(bench, { at: '#/ruler?craft=hedgerow' })
    await page.locator('[data-slice=pack]').waitFor()
    const drawn = await widths(page)
    const slices = ruler_of().slices.filter((one) => one.grams > 0)
    assert.deepEqual(Object.keys(drawn), slices.map(full_name), 'all of them, in the ruler’s order')
    const scale = drawn.pack / slices.find((one) => one.name === 'pack').grams
    for (const slice of slices)
        assert.ok(Math.abs(drawn[full_name(slice)] - scale * slice.grams) < 0.1, full_name(slice))
    await close()
})

test('the keyboard goes along the ruler, closer and back', async () => {
    const { page, close } = await open(bench, { at: '#/ruler?craft=hedgerow' })
    const slices = ruler_of().slices.filter((one) => one.grams > 0)
    await page.locator(`[data-slice="${full_name(slices[0])}"]`).focus()
    await page.keyboard.press('ArrowRight')
    await page.keyboard.press('ArrowRight')
    const third = page.locator(`[data-slice="${full_name(slices[2])}"]`)
    await third.and(page.locator(':focus')).waitFor()
    assert.match(await third.getAttribute('aria-label'), new RegExp(`${slices[2].grams.toFixed(1)}.*${slices[2].known}`))
    const before = (await widths(page))[full_name(slices[2])]
    await page.keyboard.press('+')
    await page.waitForFunction(
        ([name, was]) => document.querySelector(`[data-slice="${name}"] rect`).getBoundingClientRect().width > 1.9 * was,
        [full_name(slices[2]), before],
    )
    assert.match(page.url(), /from_to=/, 'how close it is stands in the address')
    await page.keyboard.press('0')
    await page.waitForURL((url) => !url.hash.includes('from_to'))
    await page.keyboard.press('End')
    await page.locator(`[data-slice="${full_name(slices.at(-1))}"]`).and(page.locator(':focus')).waitFor()
    await close()
})

test('a swap under the pointer is shaved off, and put back when it leaves', async () => {
    const { page, close } = await open(bench, { at: '#/ruler?craft=hedgerow&at=antenna' })
    const swap = page.locator('li', { has: page.locator('[data-swap="antenna=an-rush"]') })
    await swap.waitFor()
    const before = (await widths(page)).antenna
    await swap.hover()
    const tried = ruler_of('--try', 'antenna=an-rush')
    await page.locator('.spine .figure').getByText(tried.all_up_g.toFixed(1)).waitFor()
    const after = (await widths(page)).antenna
    const grams = (ruler) => ruler.slices.find((one) => one.name === 'antenna').grams
    assert.ok(Math.abs(after / before - grams(tried) / grams(ruler_of())) < 0.02)
    assert.equal(await page.locator('.measure .shaved').count(), 1)
    await page.mouse.move(5, 5)
    await page.locator('.spine .figure').getByText(ruler_of().all_up_g.toFixed(1)).waitFor()
    assert.equal(await page.locator('.measure .shaved').count(), 0)
    await close()
})

test('an item picked on the outline shows where it is and its swaps', async () => {
    const { page, close } = await open(bench, { at: '#/outline?craft=hedgerow' })
    await page.getByRole('button', { name: /^pack 178/ }).click()
    await page.getByRole('heading', { name: /^pack pa-4s-1550/ }).waitFor()
    const { pack_shift_mm: shift } = bench.pare('sheet', 'hedgerow', '--outline')
    await page.getByText(`Pack ${Math.round(Math.abs(shift))} mm ${shift < 0 ? 'aft' : 'forward'}`).waitFor()
    const said = bench.pare('swaps', 'hedgerow').swaps.filter((swap) => swap.id.startsWith('pack='))
    assert.equal(await page.locator('[data-swap^="pack="]').count(), said.length)
    // The same item, from the drawing.
    await page.locator('.sheet svg').first().locator('path.chosen').first().waitFor()
    await close()
})

test('ounces and inches are the same figures, turned', async () => {
    const { page, close } = await open(bench, { at: '#/ruler?craft=hedgerow' })
    await page.keyboard.press('u')
    const { all_up_g: grams } = ruler_of()
    await page.locator('.spine .figure').getByText(`${(grams / 28.349523125).toFixed(2)} ±`).waitFor()
    // Limits and what the command says in words too.
    await page.keyboard.press('5')
    await page.getByText('at most 21.87 oz').waitFor()
    assert.doesNotMatch((await page.locator('.walls .figures').allTextContents()).join('\n'), /\d\s(g|mm|m)\b/)
    await page.keyboard.press('6')
    const speed = bench.pare('sheet', 'hedgerow', '--curve', 'minutes').sentence.match(/as flown \(([\d.]+) m\/s\)/)[1]
    await page.getByText(`as flown (${Number((speed / 0.3048).toPrecision(3))} ft/s)`).waitFor()
    await page.keyboard.press('u')
    await page.locator('.spine .figure').getByText(`${grams.toFixed(1)} ±`).waitFor()
    await close()
})
