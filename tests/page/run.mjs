/* run.mjs FILE: runs one file of browser tests and says in its last line how many passed, as ./dev counts
 * them. Where the page, its tests' packages or the browser are not there it says so and ends with 77,
 * which ctest takes for skipped. */
import { spawnSync } from 'node:child_process'
import { existsSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

const here = dirname(fileURLToPath(import.meta.url))
if (!existsSync(join(here, 'node_modules', 'playwright-core'))) {
    console.log('skipped: the packages of tests/page are not there: ./dev test installs them')
    process.exit(77)
}
const { missing } = await import('./harness.mjs')
const why = missing()
if (why) {
    console.log(`skipped: ${why}`)
    process.exit(77)
}
const { stdout, status } = spawnSync(
    process.execPath,
    ['--test', '--test-reporter=tap', join(here, process.argv[2])],
    { encoding: 'utf8', maxBuffer: 1 << 26 },
)
console.log(stdout)
const count = (what) => Number(stdout.match(new RegExp(`^# ${what} (\\d+)$`, 'm'))?.[1] ?? 0)
console.log(`${count('pass')} passed, ${count('fail') + count('cancelled')} failed`)
process.exit(status ?? 1)
