/* The one way to the server. Every figure on the page is one of its answers; nothing is computed here.
 *
 * Answers to questions are kept until something on the bench changes, so that going back over swaps
 * with the pointer asks once for each. */

export class Refused extends Error {
    constructor(
        readonly status: number,
        message: string,
        /** A password lets in. */
        readonly password = false,
    ) {
        super(message)
    }
}

export type Query = Record<string, string | number | string[] | undefined>

export function address(path: string, query: Query = {}): string {
    const parts: string[] = []
    for (const [key, value] of Object.entries(query))
        for (const one of Array.isArray(value) ? value : [value])
            if (one !== undefined && one !== '')
                parts.push(`${key}=${encodeURIComponent(String(one)).replaceAll('%2C', ',')}`)
    return `./api/${path}${parts.length ? '?' + parts.join('&') : ''}`
}

async function answer(response: Response): Promise<unknown> {
    const text = await response.text()
    let body: unknown
    try {
        body = JSON.parse(text)
    } catch {
        throw new Refused(response.status, text.trim() || `the server answered ${response.status}`)
    }
    if (!response.ok) {
        const said = body as { error?: string; enter?: string }
        throw new Refused(
            response.status,
            said.error ?? `the server answered ${response.status}`,
            said.enter !== undefined,
        )
    }
    return body
}

async function reach(url: string, init: RequestInit): Promise<unknown> {
    let response: Response
    try {
        response = await fetch(url, { credentials: 'same-origin', cache: 'no-store', ...init })
    } catch (fault) {
        if ((fault as Error).name === 'AbortError') throw fault
        throw new Refused(0, 'the server does not answer: is pare serve still running?')
    }
    const command = response.headers.get('Pare-Command')
    if (command) commands.set(url, command)
    return answer(response)
}

const commands = new Map<string, string>()

/** The command line that answers the same; nothing where it was not asked yet. */
export function command_of(path: string, query: Query = {}): string | undefined {
    return commands.get(address(path, query))
}

const kept = new Map<string, Promise<unknown>>()
const most_kept = 400

export function forget(): void {
    kept.clear()
    commands.clear()
}

/** Asks; the same question is asked once until `forget`. */
export function ask<T>(path: string, query: Query = {}): Promise<T> {
    const url = address(path, query)
    let asked = kept.get(url)
    if (!asked) {
        if (kept.size >= most_kept) kept.delete(kept.keys().next().value as string)
        asked = reach(url, {})
        kept.set(url, asked)
        asked.catch(() => kept.delete(url))
    }
    return asked as Promise<T>
}

/** Asks anew each time. */
export async function ask_again<T>(path: string, query: Query = {}): Promise<T> {
    return (await reach(address(path, query), {})) as T
}

/** Changes the bench. */
export async function tell<T>(path: string, body: unknown): Promise<T> {
    const said = (await reach(address(path), {
        method: 'POST',
        headers: { 'Content-Type': 'application/json' },
        body: JSON.stringify(body),
    })) as T
    forget()
    return said
}

/** A file that the server makes, kept by the browser; a refusal is one line, as everywhere. */
export async function keep(path: string, query: Query): Promise<void> {
    const response = await fetch(address(path, query), { credentials: 'same-origin', cache: 'no-store' })
    if (!response.ok) {
        await answer(response)
        return
    }
    const name = /filename="([^"]+)"/.exec(response.headers.get('Content-Disposition') ?? '')?.[1]
    const link = document.createElement('a')
    link.href = URL.createObjectURL(await response.blob())
    link.download = name ?? path
    link.click()
    setTimeout(() => URL.revokeObjectURL(link.href), 10_000)
}
