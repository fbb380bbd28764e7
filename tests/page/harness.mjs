/* harness.mjs: the built program's server on a fresh demo bench, and Debian's Chromium before it.
 *
 * A link lets one browser in, once: the first page of a bench opens it, and what it was given is handed
 * to every further one. Each bench is a server, a folder and a port of its own, so tests do not see
 * each other's changes. What a page complains of, or asks of anybody else, is kept as a fault, and
 * `close` fails for it. */
import assert from 'node:assert/strict'
import { execFileSync, spawn } from 'node:child_process'
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { createInterface } from 'node:readline'
import { fileURLToPath } from 'node:url'
import { chromium } from 'playwright-core'

const here = dirname(fileURLToPath(import.meta.url))
export const program = process.env.PARE ?? join(here, '../../build/release/src/cli/pare')
let axe_text = null
const axe = () =>
    (axe_text ??= readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8'))
const browser_path = '/usr/bin/chromium'

export const sizes = { desktop: { width: 1440, height: 900 }, phone: { width: 360, height: 740 } }
/* A desktop at 200 %, and the narrowest that WCAG 2.2, 1.4.10 asks for. */
export const small = { zoomed: { width: 720, height: 450 }, narrow: { width: 320, height: 568 } }
export const themes = ['light', 'dark']

let browser = null

/** One browser for all tests of a file. */
export async function launch() {
    browser ??= await chromium.launch({
        executablePath: browser_path,
        args: [
            '--no-sandbox',
            '--disable-gpu',
            '--disable-quic',
            '--no-first-run',
            '--disable-background-networking',
            '--disable-component-update',
            '--disable-sync',
        ],
    })
    return browser
}

export async function quit() {
    await browser?.close()
    browser = null
}

/** A demo bench in a folder of its own, and a server on it.
 * @param password  other machines may ask, by this one */
export async function serve({ password } = {}) {
    const folder = mkdtempSync(join(tmpdir(), 'pare-page-'))
    const env = { ...process.env, XDG_DATA_HOME: folder }
    execFileSync(program, ['demo'], { env, stdio: 'ignore', timeout: 60_000 })
    const bench = join(folder, 'pare', 'demo.sqlite')
    const words = ['serve', '--json', '--port', '0', '--bench', bench]
    if (password) {
        const file = join(folder, 'password')
        writeFileSync(file, password + '\n', { mode: 0o600 })
        words.push('--listen', '0.0.0.0', '--password-file', file)
    }
    const server = spawn(program, words, { env, stdio: ['ignore', 'pipe', 'inherit'] })
    let text = ''
    const said = await new Promise((found, failed) => {
        server.once('exit', (code) => failed(new Error(`pare serve ended with ${code}`)))
        createInterface({ input: server.stdout }).on('line', (line) => {
            text += line
            try {
                found(JSON.parse(text))
            } catch {
                // the object goes on in the next line
            }
        })
    })
    const origin = new URL(said.link).origin
    return {
        ...said,
        origin,
        bench,
        folder,
        state: undefined,
        /** What the command says of the same bench. */
        pare: (...words) =>
            JSON.parse(
                execFileSync(program, [...words, '--json', '--bench', bench], {
                    maxBuffer: 1 << 26,
                    timeout: 60_000,
                }),
            ),
        async stop() {
            if (server.exitCode !== null) return
            const ended = new Promise((end) => server.once('exit', (code) => end(code)))
            server.kill('SIGTERM')
            const code = await ended
            rmSync(folder, { recursive: true, force: true })
            assert.equal(code, 0, 'the server ends as it is told to')
        },
    }
}

/** A page of a bench, let in. @returns the page, and `close`, which fails for what the page complained of */
export async function open(bench, { size = 'desktop', theme = 'light', at = '', touch = false } = {}) {
    const context = await (
        await launch()
    ).newContext({
        viewport: { ...sizes, ...small }[size],
        colorScheme: theme,
        hasTouch: touch,
        reducedMotion: 'reduce',
        acceptDownloads: true,
        storageState: bench.state,
    })
    const page = await context.newPage()
    page.setDefaultTimeout(15_000)
    const faults = []
    page.on('console', (message) => {
        if (message.type() === 'error' || message.type() === 'warning') faults.push(`${message.text()} ${message.location().url}`)
    })
    page.on('pageerror', (fault) => faults.push(String(fault)))
    page.on('request', (request) => {
        const url = new URL(request.url())
        if (url.origin !== bench.origin && url.protocol !== 'blob:') faults.push(`asks ${request.url()}`)
    })
    if (!bench.state) {
        await page.goto(bench.link)
        bench.state = await context.storageState()
    }
    await page.goto(`${bench.origin}/${at}`)
    await page.locator('.spine .figure').waitFor()
    return {
        page,
        async close() {
            await context.close()
            assert.deepEqual(faults, [], 'the page complained')
        },
    }
}

/** What axe finds wrong with a page as it is now, a line each. */
export async function violations(page) {
    await page.evaluate(axe()) // by the debugger: the page's own policy stays as it is
    const { violations: found } = await page.evaluate(() =>
        globalThis.axe.run(document, {
            runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
        }),
    )
    return found.map(
        ({ id, help, nodes }) => `${id}: ${help}: ${nodes.map((node) => node.html.slice(0, 160)).join(' | ')}`,
    )
}

/** Whether all that a browser test needs is there; otherwise why not. */
export function missing() {
    if (!existsSync(browser_path)) return `${browser_path} is not there`
    if (!existsSync(program)) return `${program} is not built`
    const dist = join(here, '../../page/dist')
    if (!existsSync(dist) || readdirSync(dist).length === 0) return 'the page is not built: ./dev page'
    return null
}
