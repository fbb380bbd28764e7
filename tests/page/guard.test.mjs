/* Who may ask, and what a browser is told it may do: as seen from outside, without the page. */
import assert from 'node:assert/strict'
import { request } from 'node:http'
import { after, before, test } from 'node:test'
import { serve } from './harness.mjs'

let bench
before(async () => (bench = await serve()))
after(() => bench.stop())

function get(path, headers = {}) {
    const { hostname, port } = new URL(bench.origin)
    return new Promise((answer, failed) => {
        request({ hostname, port, path, headers }, (response) => {
            let body = ''
            response.setEncoding('utf8')
            response.on('data', (piece) => (body += piece))
            response.on('end', () => answer({ status: response.statusCode, headers: response.headers, body }))
        })
            .on('error', failed)
            .end()
    })
}

test('the page is there before the token, and the data are not', async () => {
    assert.equal(bench.page, true)
    const page = await get('/')
    assert.equal(page.status, 200)
    assert.match(page.body, /<title>Pare<\/title>/)
    const data = await get('/api/craft')
    assert.equal(data.status, 401)
    assert.equal(typeof JSON.parse(data.body).error, 'string')
})

test('a foreign host is refused', async () => {
    for (const host of ['example.org', 'localhost.example.org', '127.0.0.1.example.org:80']) {
        const { status } = await get('/', { host })
        assert.ok(status >= 400 && status < 500, `${host}: ${status}`)
    }
})

test('the policy lets nothing in from elsewhere and runs no inline script', async () => {
    const { headers } = await get('/')
    const policy = headers['content-security-policy']
    assert.match(policy, /default-src 'none'/)
    assert.match(policy, /script-src 'self'(;|$)/)
    assert.doesNotMatch(policy, /unsafe|\*|https?:/)
    assert.equal(headers['access-control-allow-origin'], undefined)
    assert.equal(headers['x-content-type-options'], 'nosniff')
})

test('what the page is made of names nobody else', async () => {
    const { body } = await get('/')
    assert.doesNotMatch(body, /<script(?![^>]* src=)|<style|\sstyle=|\son\w+=/)
    for (const [, file] of body.matchAll(/(?:src|href)="([^"]+)"/g)) {
        assert.match(file, /^\.\//)
        assert.equal((await get('/' + file.slice(2))).status, 200, file)
    }
})
