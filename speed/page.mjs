/* page.mjs: how quickly the page is there, answers to the pointer and scrolls, in Debian's Chromium before
 * the built program's server. Run on request on a quiet machine: node speed/page.mjs; on one that is not,
 * chrt -r 5 node speed/page.mjs keeps other work away.
 *
 * Three measurements, each with its target in the last column: the first paint in a browser that is open and
 * has nothing of the page; from the pointer on a swap that nobody has asked for to the figures on the screen;
 * and the time between frames while the parts of a bench of 2,000, and the swaps of one of its crafts, are
 * scrolled through. The browser draws without a graphics card. */
import { execFileSync } from 'node:child_process'
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { launch, open, program, quit, serve, sizes } from '../tests/page/harness.mjs'

const loads = 15,
    most_swaps = 60,
    parts = 2000

const at = (list, share) => [...list].sort((a, b) => a - b)[Math.min(list.length - 1, Math.floor(share * list.length))]
function say(name, value, unit, beside = '') {
    console.log(`${name.padEnd(52)} ${value.toFixed(1).padStart(8)} ${unit.padEnd(3)} ${beside}`)
}

/* A browser that was let in and has kept nothing. */
async function first_paints(bench) {
    const painted = [],
        answered = []
    for (let i = 0; i < loads; i++) {
        const context = await (await launch()).newContext({ viewport: sizes.desktop, storageState: bench.state })
        const page = await context.newPage()
        await page.goto('about:blank') // a browser that is open already: its start is not the page's
        await page.waitForTimeout(300)
        await page.goto(`${bench.origin}/#/ruler?craft=hedgerow`)
        await page.locator('.spine .figure').waitFor()
        await page.waitForFunction(() => performance.getEntriesByName('first-contentful-paint').length)
        const [paint, figures] = await page.evaluate(() => [
            performance.getEntriesByName('first-contentful-paint')[0].startTime,
            performance.now(),
        ])
        painted.push(paint)
        answered.push(figures)
        await context.close()
    }
    say('first contentful paint, median', at(painted, 0.5), 'ms', 'at most 200')
    say('first contentful paint, worst', at(painted, 1), 'ms')
    say('figures are there and were looked for, median', at(answered, 0.5), 'ms')
}

/* Each swap once, so that neither the page nor the server has its answer. */
async function hovers(bench) {
    const { page } = await open(bench, { at: '#/swaps?craft=hedgerow' })
    await page.locator('[data-swap]').first().waitFor()
    await page.evaluate(() => {
        globalThis.taken = []
        let since = 0
        document.addEventListener('pointerenter', (event) => {
            if (event.target.matches?.('li:has([data-swap])')) since = performance.now()
        }, true)
        // A figure that changes is on the screen with the next frame.
        new MutationObserver(() => {
            const from = since
            since = 0
            if (from) requestAnimationFrame(() => globalThis.taken.push(performance.now() - from))
        }).observe(document.querySelector('.spine .said'), { subtree: true, childList: true, characterData: true })
    })
    const rows = page.locator('li:has([data-swap])')
    const count = Math.min(await rows.count(), most_swaps)
    for (let i = 0; i < count; i++) {
        await rows.nth(i).scrollIntoViewIfNeeded()
        await rows.nth(i).hover()
        await page.waitForTimeout(120)
    }
    const taken = await page.evaluate(() => globalThis.taken)
    say(`pointer to figures, ${taken.length} new swaps, median`, at(taken, 0.5), 'ms', 'at most 50')
    say('pointer to figures, 95 in 100', at(taken, 0.95), 'ms')
    await page.context().close()
}

/* The wheel turned evenly, as fast as a hand does. */
async function scroll(bench, name, where, seen) {
    const { page } = await open(bench, { at: where })
    await page.locator(seen).first().waitFor()
    await page.waitForLoadState('networkidle')
    await page.waitForTimeout(1000)
    const frames = await page.evaluate(async () => {
        const times = []
        let on = true
        const tick = (time) => {
            times.push(time)
            if (on) requestAnimationFrame(tick)
        }
        requestAnimationFrame(tick)
        const high = document.documentElement.scrollHeight
        const began = performance.now()
        await new Promise((end) => {
            const step = () => {
                const share = (performance.now() - began) / 5000
                scrollTo(0, Math.min(share, 1) * Math.min(high, 25_000))
                if (share < 1) requestAnimationFrame(step)
                else end()
            }
            requestAnimationFrame(step)
        })
        on = false
        return times.slice(1).map((time, i) => time - times[i])
    })
    say(`${name}: time between frames, median`, at(frames, 0.5), 'ms', 'at most 16.7')
    say(`${name}: time between frames, 99 in 100`, at(frames, 0.99), 'ms')
    say(`${name}: frames later than 25 ms`, (100 * frames.filter((ms) => ms > 25).length) / frames.length, '%')
    await page.context().close()
}

function fill(bench) {
    const file = join(bench.folder, 'many.csv')
    const rows = ['name,kind,mass (g),stator,kv,price']
    const { parts: there } = bench.pare('parts')
    for (let i = there.length; i < parts; i++)
        rows.push(
            `Made-up ${i},motor,${(20 + (i % 97) * 0.21).toFixed(2)},${18 + (i % 9)} mm x ${4 + (i % 6)} mm,${1200 + 10 * (i % 160)},${10 + (i % 40)}`,
        )
    writeFileSync(file, rows.join('\n') + '\n')
    execFileSync(program, ['import', file, '--bench', bench.bench], { stdio: 'ignore' })
}

const bench = await serve()
await open(bench).then(({ close }) => close())
await first_paints(bench)
await hovers(bench)
fill(bench)
await scroll(bench, `${parts} parts`, '#/bench?craft=hedgerow&of=parts', '.parts li')
await scroll(bench, 'swaps of 2,000 parts', '#/swaps?craft=hedgerow', '[data-swap]')
await quit()
await bench.stop()
