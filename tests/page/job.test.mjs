/* The whole job, as somebody does it: open the demo, find the heaviest surprise, try three swaps, run the
 * best set, take one, enter a weigh-in, download the report. Once with the pointer and once with the
 * keyboard alone, at a desk and on a phone; each on a bench of its own, and the bench has it afterwards. */
import assert from 'node:assert/strict'
import { execFileSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { after, test } from 'node:test'
import { open, quit, serve } from './harness.mjs'

after(quit)

/* The same deeds by either hand. A keyboard goes to a thing by Tab, as its user must, so that what
 * cannot be reached is found; the way is bounded. */
const hands = {
    pointer: (page, touch) => ({
        press: (thing) => (touch ? thing.tap() : thing.click()),
        view: (name) => press_link(page, name, touch),
        type: async (thing, text) => {
            await (touch ? thing.tap() : thing.click())
            await thing.fill(text)
        },
        digits: async (text) => {
            for (const key of text)
                await hands.pointer(page, touch).press(page.getByRole('button', { name: key, exact: true }))
        },
        undo: () => hands.pointer(page, touch).press(page.getByRole('button', { name: 'undo', exact: true })),
    }),
    keyboard: (page) => ({
        press: async (thing) => {
            await walk_to(page, thing)
            await page.keyboard.press('Enter')
        },
        view: (name) => page.keyboard.press({ Ruler: '1', Swaps: '3', 'Best set': '4', Bench: '7' }[name]),
        type: async (thing, text) => {
            await walk_to(page, thing)
            await page.keyboard.type(text)
        },
        digits: (text) => page.keyboard.type(text),
        undo: () => page.keyboard.press('Control+z'),
    }),
}

async function press_link(page, name, touch) {
    const link = page.getByRole('navigation', { name: 'View' }).getByRole('link', { name, exact: true })
    await (touch ? link.tap() : link.click())
}

/* To a thing by Tab and, within lists that the arrows walk, by arrows. */
async function walk_to(page, thing) {
    await thing.waitFor()
    const wanted = await thing.elementHandle()
    for (let i = 0; i < 400; i++) {
        const next = await page.evaluate((to) => {
            const now = document.activeElement
            if (now === to) return 'there'
            const list = now?.closest('ul, svg')
            if (!list?.contains(to) || !(to.tabIndex < 0 || now.matches('[data-swap]'))) return 'Tab'
            const after = now.compareDocumentPosition(to) & Node.DOCUMENT_POSITION_FOLLOWING
            return after ? 'ArrowDown' : 'ArrowUp'
        }, wanted)
        if (next === 'there') {
            const seen = await page.evaluate(() => {
                const style = getComputedStyle(document.activeElement)
                return style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) > 0
            })
            assert.ok(seen, 'what has the focus shows it')
            return
        }
        await page.keyboard.press(next)
    }
    assert.fail(`the keyboard does not get to ${thing}`)
}

/* What the page has sent off reaches the bench a moment later. */
async function until(page, holds) {
    for (let i = 0; i < 50; i++) {
        if (holds()) return
        await page.waitForTimeout(200)
    }
    assert.fail(`never came to ${holds}`)
}

async function job(t, size, hand) {
    const bench = await serve()
    t.after(() => bench.stop())
    const touch = size === 'phone' && hand === 'pointer'
    const { page, close } = await open(bench, { size, touch })
    const at = hands[hand](page, touch)

    // The demo opens with the craft that is furthest from its limits.
    const before = bench.pare('sheet', 'hedgerow')
    await page.locator('.crafts [aria-current]').getByText('hedgerow').waitFor()
    assert.match(await page.locator('.spine .figure').innerText(), new RegExp(`^${before.all_up_g.toFixed(1)}`))

    // The heaviest surprise: what is heavier than the law of its kind says.
    const surprises = bench.pare('parts', '--surprise').parts
    const heaviest = surprises.reduce((a, b) => (b.mass_g > a.mass_g ? b : a))
    await at.view('Bench')
    await at.press(page.getByRole('link', { name: 'Parts', exact: true }))
    await at.press(page.getByRole('button', { name: 'heavier than their kind' }))
    await page.getByText(`${surprises.length} parts`, { exact: true }).waitFor()
    await at.press(page.getByRole('button', { name: heaviest.id, exact: true }))
    await page.getByRole('button', { name: heaviest.id, expanded: true }).waitFor()

    // Three swaps on trial: the figures answer with the command's.
    await at.view('Swaps')
    const ids = ['bumper=off', 'skid=off', 'tower=ti-100']
    for (const id of ids) await at.press(page.locator(`[data-swap="${id}"]`))
    const tried = bench.pare('sheet', 'hedgerow', '--try', ids.join(','))
    await page.locator('.spine').getByText(`−${(-tried.change.all_up_g).toFixed(0)}`).waitFor()
    await page.getByRole('button', { name: 'Take all 3' }).waitFor()
    await at.press(page.getByRole('button', { name: 'None', exact: true }))
    await page.getByText('Nothing is on trial. Point').waitFor()

    // The best set, and one swap of it.
    await at.view('Best set')
    await at.press(page.getByRole('navigation', { name: 'Craft' }).getByRole('link', { name: /^thimble/ }))
    await at.press(page.getByRole('button', { name: 'Search the lightest set' }))
    await page.getByText('proven, no set that does the job is lighter').waitFor({ timeout: 60_000 })
    await page.getByRole('heading', { name: 'What binds' }).waitFor()
    const one = page.getByRole('button', { name: /^bumper=off/ })
    await at.press(one)
    await at.press(page.getByRole('button', { name: 'Take it' }))
    await page.getByText('Nothing is on trial. Point').waitFor()
    await until(page, () => bench.pare('take', 'thimble').taken.map((one) => one.swap).join() === 'bumper=off')

    // A weigh-in: the promise first, then the reading.
    await at.view('Bench')
    await at.press(page.getByRole('button', { name: 'whole craft' }))
    await page.getByText('The scale will show').waitFor()
    const were = bench.pare('weigh', 'thimble').readings.length
    await at.digits('251')
    await at.press(page.getByRole('button', { name: 'Keep the reading' }))
    await page.locator('.readings li').first().getByText('251').waitFor()
    const readings = bench.pare('weigh', 'thimble').readings
    assert.equal(readings.length, were + 1)
    assert.equal(readings.at(-1).reads_g, 251)

    // The report, as a file.
    const [download] = await Promise.all([
        page.waitForEvent('download'),
        at.press(page.getByRole('link', { name: 'svg', exact: true })),
    ])
    assert.equal(await download.failure(), null)
    assert.match(download.suggestedFilename(), /\.svg$/)
    const report = readFileSync(await download.path(), 'utf8')
    assert.match(report, /^<\?xml|^<svg/)
    assert.match(report, /thimble/)

    // With the best set, on the paper that is asked for.
    await page.getByLabel('paper', { exact: true }).selectOption('letter')
    await page.getByLabel('with the best set').check()
    await page.getByLabel('sought for').fill('5')
    const [pages] = await Promise.all([
        page.waitForEvent('download'),
        at.press(page.getByRole('link', { name: 'pdf', exact: true })),
    ])
    assert.match(pages.suggestedFilename(), /\.pdf$/)
    const paper = execFileSync('pdfinfo', [await pages.path()], { encoding: 'utf8' }) // poppler
    assert.match(paper, /Page size: +612 x 792 pts/)

    // What was done is said as commands, and goes back.
    await at.undo()
    await page.getByText('undone:').waitFor({ state: 'attached' })
    await until(page, () => bench.pare('weigh', 'thimble').readings.length === were)
    await close()
}

test('the whole job by pointer at a desk', (t) => job(t, 'desktop', 'pointer'))
test('the whole job by keyboard at a desk', (t) => job(t, 'desktop', 'keyboard'))
test('the whole job by thumb on a phone', (t) => job(t, 'phone', 'pointer'))
test('the whole job by keyboard on a phone', (t) => job(t, 'phone', 'keyboard'))
