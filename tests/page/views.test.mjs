/* Every view in both themes and both widths: no violation that axe knows of, nothing wider than the
 * window, no complaint of the browser; and each of its figures is the command's. */
import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import { open, quit, serve, sizes, themes, violations } from './harness.mjs'

const tried = 'bumper=off,tower=ti-100'

let bench
before(async () => (bench = await serve()))
after(async () => {
    await quit()
    await bench.stop()
})

/* What is to be seen of a view before it is judged. */
const views = {
    ruler: { at: `ruler?craft=hedgerow&try=${tried}`, seen: '[data-slice=pack]' },
    outline: { at: `outline?craft=hedgerow&try=${tried}`, seen: 'main svg' },
    swaps: { at: 'swaps?craft=hedgerow', seen: '[data-swap]' },
    best: { at: 'best?craft=thimble', seen: 'main button.main', make: searched },
    margins: { at: `margins?craft=hedgerow&try=${tried}`, seen: '.walls li' },
    flight: { at: `flight?craft=hedgerow&try=${tried}`, seen: '.u-over' },
    'weigh-in': { at: 'bench?craft=hedgerow', seen: '.pad button' },
    work: { at: 'bench?craft=hedgerow&of=work', seen: 'main h2, main p' },
    craft: { at: 'bench?craft=hedgerow&of=craft', seen: 'main dl, main table, main li' },
    parts: { at: 'bench?craft=hedgerow&of=parts&surprise=yes&part=fc-30p', seen: '.parts li' },
    import: { at: 'bench?craft=hedgerow&of=import', seen: 'main input, main textarea' },
    history: { at: 'bench?craft=hedgerow&of=history', seen: 'main tbody tr' },
    help: { at: 'ruler?craft=hedgerow', seen: '[data-slice=pack]', make: (page) => page.keyboard.press('?') },
}

async function searched(page) {
    await page.getByRole('button', { name: 'Search the lightest set' }).click()
    await page.getByText('proven, no set that does the job is lighter').waitFor({ timeout: 60_000 })
}

async function judge(page, what) {
    const said = (await violations(page)).map((one) => `${what}: ${one}`)
    const over = await page.evaluate(() => {
        const wide = document.documentElement.clientWidth
        const past = [...document.querySelectorAll('main *')].filter(
            (one) => one.getBoundingClientRect().right > wide + 0.5,
        )
        return document.documentElement.scrollWidth > wide
            ? past.slice(0, 3).map((one) => one.outerHTML.slice(0, 120)).concat('something')
            : []
    })
    return [...said, ...over.map((one) => `${what}: is wider than its window: ${one}`)]
}

for (const size of Object.keys(sizes))
    for (const theme of themes)
        test(`all views on a ${size}, ${theme}`, async () => {
            const { page, close } = await open(bench, { size, theme })
            const found = []
            for (const [name, view] of Object.entries(views)) {
                await page.goto(`${bench.origin}/#/${view.at}`)
                await page.reload() // a view as somebody opens it whom the address was given
                await page.locator(view.seen).first().waitFor()
                await view.make?.(page)
                found.push(...(await judge(page, name)))
            }
            assert.deepEqual(found, [])
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
