/* From another machine: over TLS, with a certificate that nobody else has signed, and by the password. */
import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import { launch, quit, serve, sizes, themes, violations } from './harness.mjs'

const password = 'four heavy red bricks'

let bench, origin
before(async () => {
    bench = await serve({ password })
    origin = `https://127.0.0.1:${new URL(bench.link).port}`
})
after(async () => {
    await quit()
    await bench.stop()
})

async function come({ size = 'phone', theme = 'light' } = {}) {
    const context = await (await launch()).newContext({
        viewport: sizes[size],
        colorScheme: theme,
        ignoreHTTPSErrors: true,
    })
    const page = await context.newPage()
    page.setDefaultTimeout(15_000)
    return { page, context }
}

test('the password lets in, to the place in the address, and stays said', async () => {
    const { page, context } = await come()
    await page.goto(`${origin}/#/bench?craft=thimble`)
    const field = page.getByLabel('Password')
    await field.and(page.locator(':focus')).waitFor()
    assert.equal(await page.locator('.spine').count(), 0)
    await page.keyboard.type('not the right one')
    await page.keyboard.press('Enter')
    await page.getByRole('alert').getByText('this is not the password').waitFor()
    assert.equal(await field.inputValue(), '')
    await page.keyboard.type(password)
    await page.keyboard.press('Enter')
    await page.locator('.pad button').first().waitFor()
    await page.locator('.spine .figure').waitFor()
    const [cookie] = await context.cookies()
    assert.deepEqual([cookie.secure, cookie.httpOnly, cookie.sameSite], [true, true, 'Strict'])
    await page.reload()
    await page.locator('.spine .figure').waitFor()
    await context.close()
})

test('its view has no fault that axe knows of, in both themes and widths', async () => {
    for (const size of Object.keys(sizes))
        for (const theme of themes) {
            const { page, context } = await come({ size, theme })
            await page.goto(origin)
            await page.getByLabel('Password').waitFor()
            assert.deepEqual(await violations(page), [], `${size}, ${theme}`)
            await context.close()
        }
})
