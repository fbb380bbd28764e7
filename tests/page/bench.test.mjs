/* The bench in the browser: values changed where they stand, two tabs, files, and the way back. */
import assert from 'node:assert/strict'
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { after, afterEach, before, test } from 'node:test'
import { open, quit, serve } from './harness.mjs'

let bench
before(async () => (bench = await serve()))
after(async () => {
    await quit()
    await bench.stop()
})

/* Each test leaves the bench as the demo made it. */
afterEach(() => {
    const { history } = bench.pare('history')
    const made = history.filter((one) => !one.undone && one.what !== 'demo').length
    if (made) bench.pare('undo', String(made))
})

const limit = (key) => bench.pare('craft', 'show', 'hedgerow').limits.find((one) => one.key === key).value

async function change(page, label, text) {
    await page.getByRole('button', { name: new RegExp(`^${label}: `) }).click()
    await page.getByLabel(`${label}, with its unit`).fill(text)
    await page.keyboard.press('Enter')
}

test('a value is changed where it stands, with its unit, and goes back', async () => {
    const { page, close } = await open(bench, { at: '#/bench?craft=hedgerow&of=craft' })
    await change(page, 'limit of all_up', '0.63 kg')
    await page.getByRole('button', { name: 'limit of all_up: 630 g. Change' }).waitFor()
    assert.equal(limit('all_up_g'), 630)
    await page.locator('.spine .limit').getByText('630').waitFor()
    await page.getByText('what was done, as commands').click()
    await page.getByText('pare craft limit hedgerow').waitFor()
    await page.keyboard.press('Control+z')
    await page.getByRole('button', { name: 'limit of all_up: 620 g. Change' }).waitFor()
    assert.equal(limit('all_up_g'), 620)
    await page.keyboard.press('Control+y')
    await page.getByRole('button', { name: 'limit of all_up: 630 g. Change' }).waitFor()
    await close()
})

test('a value that cannot be is refused in one line, and what was typed stays', async () => {
    const { page } = await open(bench, { at: '#/bench?craft=hedgerow&of=parts&part=an-rush' })
    await change(page, 'mass of an-rush', '1.7')
    await page.getByRole('alert').getByText('1.7 has no unit').waitFor()
    assert.equal(await page.getByLabel('mass of an-rush, with its unit').inputValue(), '1.7')
    await page.getByLabel('mass of an-rush, with its unit').fill('1.7 g')
    await page.keyboard.press('Enter')
    await page.getByRole('button', { name: 'mass of an-rush: 1.7 g. Change' }).waitFor()
    assert.equal(bench.pare('parts', 'show', 'an-rush').mass_g, 1.7)
    await page.context().close() // not `close`: the browser writes of each refusal, which is wanted here
})

test('of two tabs the second is told, and nothing of the first is lost', async () => {
    const at = '#/bench?craft=hedgerow&of=craft'
    const one = await open(bench, { at })
    const two = await open(bench, { at })
    await one.page.getByRole('button', { name: /^limit of flown: / }).waitFor()
    await change(two.page, 'limit of all_up', '640 g')
    await two.page.getByRole('button', { name: 'limit of all_up: 640 g. Change' }).waitFor()
    await change(one.page, 'limit of flown', '3 min')
    await one.page.getByRole('alert').getByText('was changed meanwhile').waitFor()
    assert.equal(limit('all_up_g'), 640)
    assert.equal(limit('flown_min'), 3.5)
    await one.page.getByRole('button', { name: 'Read it anew' }).click()
    await one.page.getByRole('button', { name: 'limit of all_up: 640 g. Change' }).waitFor()
    const typed = one.page.getByLabel('limit of flown, with its unit')
    assert.equal(await typed.inputValue(), '3 min', 'what was typed is still there')
    await typed.press('Enter')
    await one.page.getByRole('button', { name: 'limit of flown: 3 min. Change' }).waitFor()
    assert.equal(limit('all_up_g'), 640)
    assert.equal(limit('flown_min'), 3)
    await one.page.context().close() // it was refused, and the browser writes of it
    await two.close()
})

test('a file says first what it would change, and then changes it', async () => {
    const { page, close } = await open(bench, { at: '#/bench?craft=hedgerow&of=import' })
    const file = join(bench.folder, 'sedge.csv')
    writeFileSync(file, 'name,kind,weight (g),stator,kv\nSedge,motor,31.2,22 mm x 7 mm,1900\n')
    const parts = () => bench.pare('parts').parts.length
    const were = parts()
    await page.getByLabel('Choose files').setInputFiles(file)
    await page.getByText('parts added 1').waitFor()
    assert.equal(parts(), were, 'nothing has changed yet')
    await page.getByRole('button', { name: 'Bring it in' }).click()
    await page.getByText('It is on the bench.').waitFor()
    assert.equal(parts(), were + 1)
    await close()
})

test('a file that is dropped is one that was chosen; one that cannot be read says why', async () => {
    const { page } = await open(bench, { at: '#/bench?craft=hedgerow&of=import' })
    const drop = (name, text) =>
        page.locator('.drop').evaluate(
            (where, [name, text]) => {
                const dataTransfer = new DataTransfer()
                dataTransfer.items.add(new File([text], name))
                where.dispatchEvent(new DragEvent('drop', { bubbles: true, cancelable: true, dataTransfer }))
            },
            [name, text],
        )
    const were = bench.pare('parts').parts.length
    await drop('fern.csv', 'name,kind,weight (g),stator,kv\nFern,motor,30.1,22 mm x 7 mm,1800\n')
    await page.getByText('parts added 1').waitFor()
    await drop('broken.yaml', 'parts: [\n')
    await page.getByText(/^broken\.yaml:\d+:\d+: /).waitFor()
    assert.equal(bench.pare('parts').parts.length, were)
    await page.context().close() // it was refused, and the browser writes of it
})

test('taken swaps go through their stages, with the work that waits', async () => {
    const { page, close } = await open(bench, { at: '#/swaps?craft=hedgerow' })
    await page.locator('[data-swap="skid=off"]').click()
    await page.getByRole('button', { name: 'Take it' }).click()
    await page.getByText('Nothing is on trial').waitFor()
    await page.keyboard.press('7')
    await page.getByRole('link', { name: 'Work', exact: true }).click()
    await page.getByText('propellers off, before any work').waitFor()
    await page.getByText('what was done, as commands').waitFor()
    const promise = bench.pare('take', 'hedgerow').taken[0].promise.all_up_g
    await page.getByText(`promised −${(-promise).toFixed(1)} g`).waitFor()
    await page.getByRole('button', { name: 'skid=off fitted today' }).click()
    await page.getByRole('button', { name: 'skid=off fitted today' }).waitFor({ state: 'detached' })
    assert.equal(bench.pare('take', 'hedgerow').taken[0].on_craft, true)
    await close()
})

test('what waits says what to buy as it is sold, and what to cut', async () => {
    bench.pare('take', 'hedgerow', 'joint.motor_base.material=titanium,run.lead.length=83mm')
    const { shopping, cutting } = bench.pare('take', 'hedgerow')
    const { page, close } = await open(bench, { at: '#/bench?craft=hedgerow&of=work' })
    await page.getByRole('heading', { name: `To buy: ${shopping.money.toFixed(2)} ${shopping.money_unit}` }).waitFor()
    const [screws] = shopping.screws
    await page.getByText(`${screws.needed} needed`).waitFor()
    await page.getByText(`${screws.bags} × ${screws.sold_in}`, { exact: true }).waitFor()
    const [wire] = cutting.wires
    await page.getByText(`${wire.count} × ${wire.length_mm} mm of ${wire.gauge} AWG for ${wire.run}`).waitFor()
    await close()
})

test('a place in the address is the same place again', async () => {
    const at = '#/swaps?craft=hedgerow&loadout=race&try=bumper=off&kind=joint&words=motor'
    const { page, close } = await open(bench, { at })
    await page.locator('[data-swap]').first().waitFor()
    const ids = await page.$$eval('[data-swap]', (all) => all.map((one) => one.dataset.swap))
    assert.ok(ids.length > 0 && ids.every((id) => id.startsWith('joint.') && id.includes('motor')))
    const { all_up_g: grams } = bench.pare('sheet', 'hedgerow', '--loadout', 'race', '--try', 'bumper=off')
    await page.locator('.spine .figure').getByText(grams.toFixed(1)).waitFor()
    await page.keyboard.press('2')
    await page.locator('.sheet svg').first().waitFor()
    await page.goBack()
    await page.locator('[data-swap]').first().waitFor()
    assert.equal(new URL(page.url()).hash, at)
    await close()
})

test('an address given while the page begins is not lost', async () => {
    const at = '#/bench?craft=thimble&of=craft'
    const { page, close } = await open(bench)
    // It changes as the list of craft comes, which says where a page without a place begins.
    await page.addInitScript((hash) => {
        const plain = globalThis.fetch
        globalThis.fetch = async (...asked) => {
            const response = await plain(...asked)
            if (!asked[0].endsWith('/api/craft')) return response
            const text = await response.text()
            response.text = async () => {
                if (!location.hash) location.hash = hash
                return text
            }
            return response
        }
    }, at)
    await page.goto(`${bench.origin}/?anew`)
    await page.getByRole('button', { name: /^limit of all_up: / }).waitFor()
    assert.equal(new URL(page.url()).hash, at)
    await close()
})

test('digits typed at a weigh-in are the reading, not other views', async () => {
    const { page, close } = await open(bench, { at: '#/bench?craft=hedgerow' })
    const next = bench.pare('weigh', 'hedgerow').next[0]
    await page.getByText('The scale will show').waitFor()
    const reading = ((next.promise_low_g + next.promise_high_g) / 2).toFixed(1)
    await page.keyboard.type(`1234567${reading}`)
    for (let i = 0; i < reading.length + 7; i++) await page.keyboard.press('Backspace')
    await page.keyboard.type(reading)
    await page.locator('.reading').getByText(reading).waitFor()
    await page.keyboard.press('Enter')
    await page.getByText(`${Number(reading)} g, as promised`).waitFor()
    const { readings } = bench.pare('weigh', 'hedgerow')
    assert.deepEqual(readings.at(-1).of, { [next.name]: next.count })
    assert.equal(readings.at(-1).reads_g, Number(reading))
    assert.equal(readings.at(-1).held, true)
    await close()
})
