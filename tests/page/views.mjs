/* views.mjs: all views of the page, and what is held against each of them. */
import { violations } from './harness.mjs'

const tried = 'bumper=off,tower=ti-100'

/* What is to be seen of a view before it is judged. */
export const views = {
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

export async function judge(page, what) {
    // All of a list is judged, not only what is near the window.
    await page.evaluate(() => document.querySelectorAll('ul').forEach((list) => (list.style.contentVisibility = 'visible')))
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

/** Opens each view as somebody does whom its address was given, and judges it. @returns faults, a line each */
export async function judge_all(page, origin) {
    const found = []
    for (const [name, view] of Object.entries(views)) {
        await page.goto(`${origin}/#/${view.at}`)
        await page.reload()
        await page.locator(view.seen).first().waitFor()
        await view.make?.(page)
        found.push(...(await judge(page, name)))
    }
    return found
}
