/* What a page does at all times: enlarged, narrow, on paper, without motion; nothing jumps, and where the
 * server is gone it says so. */
import assert from 'node:assert/strict'
import { gunzipSync } from 'node:zlib'
import { request } from 'node:http'
import { after, before, test } from 'node:test'
import { open, quit, serve, small } from './harness.mjs'
import { judge_all } from './views.mjs'

let bench
before(async () => (bench = await serve()))
after(async () => {
    await quit()
    await bench.stop()
})

for (const size of Object.keys(small))
    test(`nothing is lost when it is ${size}`, async () => {
        const { page, close } = await open(bench, { size })
        assert.deepEqual(await judge_all(page, bench.origin), [])
        await close()
    })

test('figures stand whole in their column on the narrowest phone', async () => {
    const { page, close } = await open(bench, { size: 'narrow', at: '#/ruler?craft=hedgerow&try=bumper=off' })
    await page.getByRole('region', { name: 'Figures' }).waitFor()
    const cut = await page.$$eval('section[aria-label="Figures"] td', (all) =>
        all.filter((one) => one.scrollWidth > one.clientWidth + 1).map((one) => one.textContent),
    )
    assert.deepEqual(cut, [])
    await close()
})

test('on paper all swaps are there, tools are not, and drawings fit', async () => {
    const { page, close } = await open(bench, { at: '#/swaps?craft=hedgerow' })
    await page.locator('[data-swap]').first().waitFor()
    const swaps = await page.locator('[data-swap]').count()
    await page.emulateMedia({ media: 'print' })
    assert.equal(await page.locator('[data-swap]:visible').count(), swaps)
    assert.equal(await page.locator('.no-print:visible').count(), 0)
    await page.goto(`${bench.origin}/#/ruler?craft=hedgerow`)
    await page.locator('[data-slice=pack]').waitFor()
    // Drawn for the window, then shown in a column as narrow as a sheet.
    const [wide, shown] = await page.evaluate(() => {
        const svg = document.querySelector('svg.drawn')
        svg.parentElement.style.width = '640px'
        return [Number(svg.getAttribute('width')), svg.getBoundingClientRect().width]
    })
    assert.ok(wide > 640 && shown <= 640, `${wide} px drawn, ${shown} shown`)
    await close()
})

test('who wants no motion gets none', async () => {
    const { page, close } = await open(bench, { at: '#/ruler?craft=hedgerow' })
    await page.locator('[data-slice=pack]').waitFor()
    const moving = await page.$$eval('*', (all) =>
        all
            .filter((one) => {
                const style = getComputedStyle(one)
                return style.animationName !== 'none' || style.transitionDuration.split(', ').some((time) => time !== '0s')
            })
            .map((one) => one.outerHTML.slice(0, 80)),
    )
    assert.deepEqual(moving, [])
    await close()
})

/* Cumulative layout shift: 0.1 is called good by common practice; here a tenth of that. */
test('nothing jumps while figures come, nor when a swap is pointed at or put on trial', async () => {
    for (const size of ['desktop', 'phone']) {
        const { page, close } = await open(bench, { size })
        for (const view of ['ruler', 'swaps', 'margins', 'flight', 'outline', 'bench']) {
            await page.goto(`${bench.origin}/#/${view}?craft=hedgerow`)
            await page.reload()
            await page.evaluate(() => {
                globalThis.shifted = []
                new PerformanceObserver((list) => {
                    for (const one of list.getEntries())
                        if (!one.hadRecentInput)
                            globalThis.shifted.push([one.value, one.sources.map(({ node }) => node?.outerHTML?.slice(0, 80))])
                }).observe({ type: 'layout-shift', buffered: true })
            })
            await page.locator('.spine .figure').waitFor()
            if (view === 'ruler' || view === 'swaps') {
                const swap = page.locator('[data-swap]').first()
                await swap.waitFor()
                const now = await page.locator('.spine .figure').textContent()
                await swap.hover()
                await page.waitForFunction((was) => document.querySelector('.spine .figure').textContent !== was, now)
                await swap.click()
                await page.locator('.trial code').first().waitFor()
            }
            await page.waitForLoadState('networkidle')
            const shifted = await page.evaluate(() => globalThis.shifted)
            const sum = shifted.reduce((all, [value]) => all + value, 0)
            assert.ok(sum < 0.01, `${view} on a ${size}: ${sum}: ${JSON.stringify(shifted)}`)
        }
        await close()
    }
})

test('another view is read from its top, and going back returns to where one was', async () => {
    const { page, close } = await open(bench, { at: '#/swaps?craft=hedgerow' })
    await page.locator('[data-swap]').nth(25).waitFor()
    await page.evaluate(() => scrollTo(0, 900))
    await page.keyboard.press('5')
    await page.locator('.walls li').first().waitFor()
    assert.equal(await page.evaluate(() => scrollY), 0)
    await page.goBack()
    await page.waitForFunction(() => Math.abs(scrollY - 900) < 100)
    await close()
})

test('where the server is gone the page says so, and shows what it has', async () => {
    const other = await serve()
    const { page } = await open(other, { at: '#/swaps?craft=hedgerow' })
    await page.locator('[data-swap]').nth(3).waitFor()
    await other.stop()
    await page.locator('[data-swap]').nth(3).hover()
    await page.getByText('is pare serve still running?').waitFor()
    assert.ok((await page.locator('[data-swap]').count()) > 3)
    await page.context().close() // the browser writes of what it could not reach
})

function fetched(path) {
    const { hostname, port } = new URL(bench.origin)
    return new Promise((answer, failed) => {
        request({ hostname, port, path, headers: { 'Accept-Encoding': 'gzip' } }, (response) => {
            const pieces = []
            response.on('data', (piece) => pieces.push(piece))
            response.on('end', () => answer(Buffer.concat(pieces)))
        })
            .on('error', failed)
            .end()
    })
}

test('all of the page comes in under 100 kB', async () => {
    const html = await fetched('/')
    const files = [...gunzipSync(html).toString().matchAll(/(?:src|href)="\.([^"]+)"/g)].map(([, file]) => file)
    assert.ok(files.length >= 3)
    let bytes = html.length
    for (const file of files) bytes += (await fetched(file)).length
    assert.ok(bytes < 100_000, `${bytes} bytes`)
})
