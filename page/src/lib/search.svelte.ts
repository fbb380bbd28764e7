/* Long work of the server: a search that says how far it is, and ends when nobody wants it any more.
 *
 * It goes on while the reader looks at other views, and stops with the page: closing the connection is
 * what tells the server. The stream is read here rather than by EventSource, which says nothing of why
 * it was refused and asks again by itself. */
import { address, type Query } from './api.ts'

export interface Step {
    s: number // since the start
    doing: string
    done: number
    all: number
    best_g?: number | null
    bound_g?: number | null
}

/** The events of a stream, as they come in whole. */
export async function* events(body: ReadableStream<Uint8Array<ArrayBuffer>>) {
    const reader = body.pipeThrough(new TextDecoderStream()).getReader()
    let text = ''
    for (;;) {
        const { value, done } = await reader.read()
        if (done) return
        text += value.replaceAll('\r', '')
        for (let end = text.indexOf('\n\n'); end >= 0; end = text.indexOf('\n\n')) {
            const lines = text.slice(0, end).split('\n')
            text = text.slice(end + 2)
            const of = (name: string) =>
                lines
                    .filter((line) => line.startsWith(name + ':'))
                    .map((line) => line.slice(name.length + 1).replace(/^ /, ''))
            const data = of('data').join('\n')
            // Without data it is a sign of life, and no event.
            if (data) yield { event: of('event')[0] ?? 'message', data }
        }
    }
}

export class Search<Answer> {
    /** What was asked: answers to another question are not shown. */
    asked = $state('')
    /** What a person would type for it. */
    command = $state('')
    running = $state(false)
    steps = $state.raw<Step[]>([])
    answer = $state.raw<Answer | null>(null)
    fault = $state<string | null>(null)
    private stopper: AbortController | null = null

    constructor(private readonly path: string) {}

    question(query: Query): string {
        return address(this.path, query)
    }

    stop() {
        this.stopper?.abort()
        this.stopper = null
        this.running = false
    }

    async run(query: Query) {
        this.stop()
        const mine = new AbortController()
        this.stopper = mine
        this.asked = this.question(query)
        this.running = true
        this.steps = []
        this.answer = null
        this.fault = null
        const began = performance.now()
        try {
            const response = await fetch(this.asked, { credentials: 'same-origin', signal: mine.signal })
            if (!response.ok || !response.body) {
                const said = (await response.json().catch(() => ({}))) as { error?: string }
                throw new Error(said.error ?? `the server answered ${response.status}`)
            }
            this.command = response.headers.get('Pare-Command') ?? ''
            for await (const { event, data } of events(response.body)) {
                if (this.stopper !== mine) return
                const body: unknown = JSON.parse(data)
                if (event === 'progress') {
                    const s = (performance.now() - began) / 1000
                    this.steps = [...this.steps, { s, ...(body as Omit<Step, 's'>) }]
                } else if (event === 'answer') this.answer = body as Answer
                else if (event === 'failed') this.fault = (body as { error: string }).error
            }
            if (!this.answer && !this.fault) this.fault = 'the server ended before it had an answer'
        } catch (fault) {
            if (this.stopper === mine) this.fault = fault instanceof Error ? fault.message : String(fault)
        } finally {
            if (this.stopper === mine) {
                this.running = false
                this.stopper = null
            }
        }
    }
}

export interface BestSwap {
    id: string
    from: string
    to: string
    grams: number
    money: number | null
    work_min: number
    opening: string
    brings: string[]
    drops: string[]
    notes: string[]
}

export interface Binding {
    name: string
    words: string
    refused: number
    value?: number
    limit?: number
    ratio?: number
    // What it costs, where that was asked:
    loosened_by?: number
    unit?: string
    grams_won?: number
    grams_won_proven?: boolean
    next?: string | null
}

/** By how much one limit of the brief would have to give way for a set to be found. */
export interface Relief {
    limit: string
    unit: string
    from: number
    helps: boolean
    to: number | null
    least: boolean
    best_g: number | null
}

export interface Best {
    craft: string
    loadout: string
    money_unit: string | null
    found: boolean
    proven: boolean
    stopped: boolean
    was_g: number
    best_g: number | null
    bound_g: number | null
    money: number | null
    money_back?: number // for what comes off, where that is sold
    work_min: number | null
    try: string
    swaps: BestSwap[]
    binds: Binding[]
    before: Record<string, unknown>
    after?: Record<string, unknown>
    // Where a chance was asked for; without a set only that.
    sure?: {
        asked: number
        chance?: number
        drawn?: number
        drawn_u?: number
        draws?: number
        just_g?: number
        just_proven?: boolean
        price_g?: number
    }
    give_way?: { alone: Relief[]; pair: Relief[]; stopped: boolean } | null
}

export interface WalkStep {
    swaps: string[]
    grams: number
    money: number | null
    all_up_g: number
    spent: number
    now: boolean
}

/** In which order to buy a set. */
export interface Walk {
    found: boolean
    was_g: number
    best_g: number | null
    proven: boolean
    exact: boolean
    stopped: boolean
    budget: number | null
    now_steps: number
    steps: WalkStep[]
}

export interface FrontPoint {
    all_up_g: number
    money: number
    flown_min: number
    knee: boolean
    set?: string
}

export interface Front {
    front: string
    whole: boolean
    points: FrontPoint[]
}

export const best = new Search<Best>('best')
export const front = new Search<Front>('front')
/** The best set again, with each limit that decides a little looser. */
export const binds = new Search<Best>('best')
export const walk = new Search<Walk>('walk')
