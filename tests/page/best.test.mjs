/* The best set: what each wall costs, the order in which to buy it, and what would have to give way. */
import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import { open, quit, serve } from './harness.mjs'

let bench
before(async () => (bench = await serve()))
after(async () => {
    await quit()
    await bench.stop()
})

async function searched() {
    const { page, close } = await open(bench, { at: '#/best?craft=thimble' })
    await page.getByRole('button', { name: 'Search the lightest set' }).click()
    await page.getByText('proven, no set that does the job is lighter').waitFor({ timeout: 60_000 })
    return { page, close }
}

test('the search says which command is the same', async () => {
    const { page, close } = await searched()
    await page.locator('footer .prompt').getByText('pare best thimble', { exact: true }).waitFor()
    await close()
})

test('what binds says what it costs, as the command does', async () => {
    const { page, close } = await searched()
    const walls = page.getByRole('list', { name: 'What binds the set' })
    const { binds } = bench.pare('best', 'thimble', '--binds')
    assert.equal(await walls.getByRole('listitem').count(), binds.length)
    await page.getByRole('button', { name: 'What each of them costs' }).click()
    for (const one of binds) {
        const line = walls.getByRole('listitem').filter({ hasText: one.words })
        const by = `${one.loosened_by}${one.unit ? ' ' + one.unit : ''} looser`
        const won = one.grams_won > 0 ? `${one.grams_won.toFixed(1)}` : 'nothing lighter'
        await line.getByText(by).filter({ hasText: won }).waitFor({ timeout: 60_000 })
    }
    await close()
})

test('the order to buy it in is the command’s, and what the money buys goes on trial', async () => {
    const { page, close } = await searched()
    await page.getByLabel('to spend now').fill('50')
    await page.getByLabel('to spend now').press('Enter')
    await page.getByRole('button', { name: 'Work out the order' }).click()
    const order = page.getByRole('region', { name: 'In which order to buy it' })
    await order.getByRole('listitem').first().waitFor({ timeout: 60_000 })
    const { steps } = bench.pare('best', 'thimble', '--walk', '--budget', '50')
    const now = steps.filter((one) => one.now)
    assert.ok(now.length > 0 && now.length < steps.length)
    assert.deepEqual(
        await order.locator('li').evaluateAll((all) => all.map((one) => [...one.querySelectorAll('code')].map((id) => id.textContent))),
        steps.map((one) => one.swaps),
    )
    assert.equal(await order.locator('li.later').count(), steps.length - now.length)
    await page.getByRole('button', { name: 'Put what that buys on trial' }).click()
    await page.getByRole('button', { name: 'These are on trial' }).waitFor()
    const ids = now.flatMap((one) => one.swaps)
    assert.deepEqual((await page.locator('.trial code').allTextContents()).sort(), ids.sort())
    await close()
})

test('a surer set says how sure it is, what that costs, and what comes back for what comes off', async () => {
    const { page, close } = await open(bench, { at: '#/best?craft=thimble' })
    for (const [label, value] of [['as sure as', '95'], ['sold at', '50']]) {
        await page.getByLabel(label).fill(value)
        await page.getByLabel(label).press('Enter')
    }
    await page.getByRole('button', { name: 'Search the lightest set' }).click()
    await page.getByText('proven, no set that does the job is lighter').waitFor({ timeout: 60_000 })
    const { sure, money_back } = bench.pare('best', 'thimble', '--sure', '95%', '--sold', '50%')
    const said = page.getByText('All limits hold together with')
    await said.getByText(`${(100 * sure.chance).toFixed(1)} % at least`).waitFor()
    await said.getByText(`${(100 * sure.drawn).toFixed(1)} %`).waitFor()
    await said.getByText(`That costs ${sure.price_g.toFixed(1)}`).waitFor()
    await page.getByText(`with ${Math.round(money_back)} back for what comes off`).waitFor()
    await close()
})

const held = [
    ...['frame', 'propeller', 'camera', 'motor', 'gps', 'board', 'receiver', 'antenna'],
    ...['run.phase', 'run.lead', 'joint.posts', 'joint.stack'],
]

test('a front of money and minutes has the sets of the command', async () => {
    const { page, close } = await open(bench, { at: `#/best?craft=thimble&hold=${held.join(',')}&seconds=100` })
    await page.getByRole('button', { name: 'money and minutes' }).click()
    await page.getByRole('button', { name: 'Search this front' }).click()
    const chart = page.getByRole('group', { name: 'Front of money and minutes' })
    await chart.waitFor({ timeout: 120_000 })
    const hold = held.flatMap((one) => ['--hold', one])
    const { points } = bench.pare('best', 'thimble', '--front', 'money-minutes', ...hold)
    const shown = await chart.getByRole('button').evaluateAll((all) => all.map((one) => one.getAttribute('aria-label')))
    assert.deepEqual(
        shown,
        points.map((one) => `${one.money.toFixed(0)} EUR, ${one.flown_min.toFixed(2)} min${one.knee ? ', a knee' : ''}`),
    )
    assert.ok(shown.length > 1)
    await close()
})

test('where no set keeps the brief, it is said what would have to give way', async () => {
    bench.pare('craft', 'limit', 'thimble', 'all_up=150g')
    const { page, close } = await open(bench, { at: '#/best?craft=thimble' })
    await page.getByRole('button', { name: 'Search the lightest set' }).click()
    await page.getByText('No set of swaps meets the brief: that is proven.').waitFor({ timeout: 60_000 })
    let refused
    try {
        bench.pare('best', 'thimble')
    } catch (fault) {
        assert.equal(fault.status, 1) // the answer is no
        refused = JSON.parse(fault.stdout)
    }
    const { alone } = refused.give_way
    const [mass] = alone.filter((one) => one.helps)
    await page.getByText(`from 150 to ${Math.ceil(mass.to * 100) / 100} g, alone`).waitFor()
    await page.getByRole('link', { name: 'Change what it must do' }).click()
    await page.getByRole('button', { name: 'limit of all_up: 150 g. Change' }).waitFor()
    bench.pare('undo')
    await close()
})
