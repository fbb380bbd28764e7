/* Every view in both themes and both widths: no violation that axe knows of, nothing wider than the
 * window, no complaint of the browser; and each of its figures is the command's. */
import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import { open, quit, serve, sizes, themes } from './harness.mjs'
import { judge_all } from './views.mjs'

let bench
before(async () => (bench = await serve()))
after(async () => {
    await quit()
    await bench.stop()
})

for (const size of Object.keys(sizes))
    for (const theme of themes)
        test(`all views on a ${size}, ${theme}`, async () => {
            const { page, close } = await open(bench, { size, theme })
            assert.deepEqual(await judge_all(page, bench.origin), [])
            await close()
        })

test('a long search can be watched and stopped', async () => {
    const { page, close } = await open(bench, { at: '#/best?craft=hedgerow' })
    await page.getByRole('button', { name: 'Search this front' }).click()
    await page.getByRole('button', { name: 'Stop' }).click()
    await page.getByRole('button', { name: 'Search this front' }).waitFor()
    await close()
})

test('a flight is drawn from what the command says, and read point by point', async () => {
    const { page, close } = await open(bench, { at: '#/flight?craft=thimble&curve=sag' })
    const curve = bench.pare('sheet', 'thimble', '--curve', 'sag')
    await page.getByText(curve.sentence).waitFor()
    const slider = page.getByRole('slider', { name: 'Along the curve' })
    assert.equal(Number(await slider.getAttribute('max')), curve.x.values.length - 1)
    await slider.focus()
    await page.keyboard.press('Home')
    const first = await slider.getAttribute('aria-valuetext')
    assert.match(first, new RegExp(`^0.min: ${curve.y.values[0].toFixed(2)}`))
    await page.keyboard.press('ArrowRight')
    assert.notEqual(await slider.getAttribute('aria-valuetext'), first)
    await close()
})

test('margins stand in the order of the sheet, those behind their wall said so', async () => {
    const { page, close } = await open(bench, { at: '#/margins?craft=hedgerow&all=yes' })
    await page.locator('.walls li').first().waitFor()
    const wanted = bench
        .pare('sheet', 'hedgerow')
        .margins.filter((one) => !one.name.startsWith('joint_crash.'))
    assert.deepEqual(
        await page.locator('.walls .words').allTextContents(),
        wanted.map((one) => one.words),
    )
    assert.equal(await page.locator('.walls li.behind').count(), wanted.filter((one) => one.ratio < 1).length)
    const said = await page.locator('.walls svg').first().getAttribute('aria-label')
    assert.match(said, /behind the wall$/)
    await close()
})
