/* What the page knows of the craft that is looked at, and the changes to it.
 *
 * `sheet` and `ruler` are of the craft with the swaps on trial; `seen` and `seen_ruler` are also with
 * the swap under pointer or focus (`peeked`). What arrives late, after the reader has moved on, is
 * dropped. */
import {
    what_of,
    type CraftLine,
    type Ruler,
    type Sheet,
    type Swaps,
    type Written,
} from './answers.ts'
import { ask, ask_again, forget, Refused, tell } from './api.ts'
import { place } from './place.svelte.ts'

interface Done {
    words: string
    command: string | null
    undo: () => Promise<void> | void
    redo: () => Promise<void> | void
}

class Bench {
    crafts = $state.raw<CraftLine[] | null>(null)
    sheet = $state.raw<Sheet | null>(null)
    ruler = $state.raw<Ruler | null>(null)
    /** The ruler of the craft as it is, without what is on trial. */
    bare = $state.raw<Ruler | null>(null)
    swaps = $state.raw<Swaps | null>(null)
    seen = $state.raw<Sheet | null>(null)
    seen_ruler = $state.raw<Ruler | null>(null)
    peeked = $state<string | null>(null)
    fault = $state<string | null>(null)
    /** Somebody else has changed the bench meanwhile. */
    overtaken = $state<string | null>(null)
    /** Nothing is shown before the password is said. */
    locked = $state(false)
    /** What happened without the reader's doing. */
    notice = $state<string | null>(null)
    /** Said to everybody, screen readers too, when something was done. */
    news = $state('')
    commands = $state.raw<string[]>([])
    undone = $state.raw<Done[]>([])
    done = $state.raw<Done[]>([])
    /** The endings of the reports that the server has. */
    reports = $state.raw<string[]>([])
    /** Moves with each change of the bench: views that ask for themselves ask again. */
    turn = $state(0)

    private asked = 0
    private peeks = 0

    question(tries: string[]) {
        const { craft, loadout } = place.at
        return { craft, loadout: loadout || undefined, try: tries.join(',') || undefined }
    }

    async load_crafts() {
        try {
            this.crafts = (await ask<{ craft: CraftLine[] }>('craft')).craft
            place.follow()
            if (!place.at.craft && this.crafts[0]) {
                // The craft furthest from its limits is what the bench is about.
                const most = [...this.crafts].sort((a, b) => b.limits_broken - a.limits_broken)
                place.go({ craft: most[0]!.name }, true)
            }
        } catch (fault) {
            this.say_fault(fault)
        }
    }

    /** Asks for all that belongs to the present place. */
    async load() {
        const mine = ++this.asked
        const { craft, loadout, tries } = place.at
        if (!craft) return
        const latest = () => mine === this.asked
        try {
            const [sheet, ruler, bare] = await Promise.all([
                ask<Sheet>('sheet', this.question(tries)),
                ask<Ruler>('ruler', this.question(tries)),
                ask<Ruler>('ruler', this.question([])),
            ])
            if (!latest()) return
            this.bare = bare
            this.sheet = sheet
            this.ruler = ruler
            this.peeked = null
            this.seen = sheet
            this.seen_ruler = ruler
            this.fault = null
            const swaps = await ask<Swaps>('swaps', { craft, loadout: loadout || undefined })
            if (latest()) this.swaps = swaps
        } catch (fault) {
            if (latest()) this.say_fault(fault)
        }
    }

    /** Shows all figures with one more swap; null: without. */
    async peek(id: string | null) {
        const mine = ++this.peeks
        if (id === null || place.at.tries.includes(id)) {
            this.peeked = null
            this.seen = this.sheet
            this.seen_ruler = this.ruler
            return
        }
        const asked = this.question(this.with_swap(id))
        const mine_still = () => mine === this.peeks
        // The figures do not wait for the ruler: each is shown as it comes.
        const figures = ask<Sheet>('sheet', asked).then((sheet) => {
            if (!mine_still()) return
            this.peeked = id
            this.seen = sheet
        })
        const slices = ask<Ruler>('ruler', asked).then((ruler) => {
            if (mine_still()) this.seen_ruler = ruler
        })
        try {
            await Promise.all([figures, slices])
        } catch (fault) {
            if (mine_still()) this.say_fault(fault)
        }
    }

    private with_swap(id: string): string[] {
        return [...place.at.tries.filter((other) => what_of(other) !== what_of(id)), id]
    }

    /** Puts swaps on trial, or takes them off. */
    private put(words: string, after: string[]) {
        const before = place.at.tries
        this.did({
            words,
            command: null,
            undo: () => place.go({ tries: before }),
            redo: () => place.go({ tries: after }),
        })
        place.go({ tries: after })
    }

    pin(id: string) {
        const off = place.at.tries.includes(id)
        this.put(
            off ? `${id} is off the trial` : `${id} is on trial`,
            off ? place.at.tries.filter((other) => other !== id) : this.with_swap(id),
        )
    }

    try_all(ids: string[]) {
        this.put(`${ids.length} swaps are on trial`, ids)
    }

    unpin_all() {
        this.put('nothing is on trial', [])
    }

    private did(done: Done) {
        this.done = [...this.done, done]
        this.undone = []
        this.news = done.words
        if (done.command) this.commands = [...this.commands, done.command]
    }

    /* One after the other: a key pressed twice goes two steps back. */
    private steps: Promise<void> = Promise.resolve()

    private step(act: () => Promise<void>): Promise<void> {
        return (this.steps = this.steps.then(() => act().catch(() => {}))) // it was said why
    }

    undo(): Promise<void> {
        return this.step(async () => {
            const last = this.done.at(-1)
            if (!last) return
            await last.undo()
            this.done = this.done.slice(0, -1)
            this.undone = [...this.undone, last]
            this.news = `undone: ${last.words}`
        })
    }

    redo(): Promise<void> {
        return this.step(async () => {
            const next = this.undone.at(-1)
            if (!next) return
            await next.redo()
            this.undone = this.undone.slice(0, -1)
            this.done = [...this.done, next]
            this.news = `done again: ${next.words}`
        })
    }

    /** How far the bench had come when the page last read it. */
    private bench_version = 0

    private async read_session() {
        const said = await ask_again<{ version: number; reports: string[] }>('session')
        this.bench_version = said.version
        this.reports = said.reports
    }

    /** Remembers which version of a craft or part the reader looks at: asked for once until `forget`, so
     * that a write names what was seen, and nobody's change is lost. */
    version(of: { craft: string } | { part: string }): Promise<number> {
        return ask<{ version: number }>('version', of).then((said) => said.version)
    }

    /** Changes the bench; what was done can be undone here. Null: it was refused, and said so.
     * @param of  whose version counts: the craft's, a part's, the whole bench's */
    async write<T extends Written>(
        path: string,
        body: Record<string, unknown>,
        words: string,
        of: { craft: string } | { part: string } | 'bench' = { craft: place.at.craft },
    ): Promise<T | null> {
        try {
            const version = of === 'bench' ? this.bench_version : await this.version(of)
            const said = await tell<T>(path, { ...body, version })
            this.did({
                words,
                command: said.command,
                undo: () => this.turn_back('undo'),
                redo: () => this.turn_back('redo'),
            })
            await this.again()
            return said
        } catch (fault) {
            this.say_refused(fault)
            return null
        }
    }

    /** The bench's last change taken back, whoever made it; or done again. */
    async turn_back(which: 'undo' | 'redo') {
        try {
            const said = await tell<Written>(which, { version: this.bench_version })
            this.commands = [...this.commands, said.command]
            await this.again()
        } catch (fault) {
            this.say_refused(fault)
            throw fault
        }
    }

    /** Asks for everything anew: the bench has changed. */
    async again() {
        forget()
        this.overtaken = null
        this.turn++
        await Promise.all([this.read_session(), this.load_crafts(), this.load()])
    }

    /** Back at the front: whether another tab or a command has changed the bench meanwhile. */
    async look_again() {
        const before = this.bench_version
        try {
            await this.read_session()
        } catch {
            return // whatever is asked next says it
        }
        if (before && before !== this.bench_version) {
            await this.again()
            this.news = 'The bench was changed elsewhere; this is how it is now.'
            this.notice = this.news
        }
    }

    /** In by the password. @returns why not; null: in */
    async enter(password: string): Promise<string | null> {
        try {
            await tell('enter', { password })
        } catch (fault) {
            return fault instanceof Error ? fault.message : String(fault)
        }
        this.locked = false
        this.fault = null
        await this.again()
        return null
    }

    async begin() {
        await Promise.all([this.load_crafts(), this.read_session().catch(() => {})])
    }

    /** What was to be written is overtaken, or fails. */
    private say_refused(fault: unknown) {
        if (fault instanceof Refused && fault.status === 409) this.overtaken = fault.message
        else this.say_fault(fault)
    }

    say_fault(fault: unknown) {
        if (fault instanceof Refused && fault.password) this.locked = true
        else if (fault instanceof Refused && fault.status === 401)
            this.fault = 'Nothing is shown without the link that pare serve printed: open that one.'
        else this.fault = fault instanceof Error ? fault.message : String(fault)
    }
}

export const bench = new Bench()
