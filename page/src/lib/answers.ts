/* The shapes of the server's answers, as far as the page reads them. Keys and units are those of
 * `pare ... --json`: a figure K has its standard uncertainty in K_u. */

export type Known =
    'weighed' | 'stated' | 'computed' | 'estimated' | 'learned' | 'measured' | 'unlisted'

export interface CraftLine {
    name: string
    loadouts: string[]
    all_up_g: number
    all_up_g_u: number
    limit_g: number | null
    limits_broken: number
}

export interface Margin {
    name: string
    words?: string
    value: number
    limit: number
    unit: string
    ratio: number
    ratio_u: number
    chance: number | null
    from: string
    caution: string | null
}

export interface LedgerLine {
    name: string
    of: 'item' | 'joint' | 'run' | 'unlisted'
    system: string
    count: number
    each_g: number
    all_g: number
    all_g_u: number
    known: Known
    roll_share: number | null
    pitch_share: number | null
    yaw_share: number | null
}

/** Figures by key: read through `figure`. */
export interface Sheet {
    craft: string
    loadout: string
    tried: string | null
    known: Record<string, Known>
    why: Record<string, string>
    change?: Record<string, number | null | (number | null)[]>
    all_up_g: number
    all_up_g_u: number
    limit_g: number | null
    limit_chance: number | null
    landed_by: string | null
    margins: Margin[]
    ledger: LedgerLine[]
    one_gram: { centre: Record<string, number | null>; tip: Record<string, number | null> }
    weigh_next: { name: string; share: number }[]
    surprises: { part: string; mass_g: number; mass_g_u: number; law_g: number; law_g_u: number; sigmas: number }[]
    tired_cells: { part: string; which: number; cell: number; times: number; date: string }[]
    filled_by_law: { part: string; specs: string[] }[]
    loadouts: Record<string, unknown>
}

export function figure(sheet: Sheet, key: string): { value: number | null; u: number | null } {
    const all = sheet as unknown as Record<string, unknown>
    const value = all[key],
        u = all[key + '_u']
    return {
        value: typeof value === 'number' ? value : null,
        u: typeof u === 'number' ? u : null,
    }
}

export function changed(sheet: Sheet, key: string): number | null {
    const value = sheet.change?.[key]
    return typeof value === 'number' ? value : null
}

export type Band = 'free' | 'cheap' | 'deep' | 'dear'

export interface Swap {
    id: string
    from: string
    to: string
    band: Band
    sought: boolean
    grams: number
    grams_u: number
    money: number | null // null: no price is known
    money_per_g: number | null
    work_min: number | null
    brings: string[]
    drops: string[]
    breaks: string[]
    loosens: string[]
    jobs_lost: string[]
    notes: string[]
    change: Record<string, number | null>
}

export interface Bands {
    free: { grams: number; money: number }
    cheap: { grams: number; money: number }
    deep: { grams: number; money: number }
}

export interface Swaps {
    craft: string
    loadout: string
    money_unit: string
    bands: Bands
    free_together: { grams: number; swaps: string[] }
    swaps: Swap[]
}

export interface Slice {
    name: string
    part?: string | null
    of: 'item' | 'joint' | 'run' | 'unlisted'
    system: string
    count: number
    grams: number
    grams_u: number
    known: Known
    off_g: number
    roll_share: number | null
    pitch_share: number | null
    yaw_share: number | null
    gram?: Record<string, number | null>
}

export interface Ruler {
    craft: string
    loadout: string
    tried: string | null
    all_up_g: number
    all_up_g_u: number
    limit_g: number | null
    limit_shown: boolean
    whole_g: number
    systems: { system: string; grams: number; off_g: number }[]
    slices: Slice[]
}

/** The name under which swaps and weigh-ins speak of a slice. */
export function full_name(of: string, name: string): string {
    return of === 'joint' || of === 'run' ? `${of}.${name}` : name
}

/** Whether a swap is one of a slice. */
export function swap_is_of(swap: string, name: string): boolean {
    const what = what_of(swap)
    return what === name || what.startsWith(name + '.')
}

/** A margin's name as a sheet says it in words; else the name, readable. */
export function margin_words(sheet: Sheet | null, name: string): string {
    return sheet?.margins.find((one) => one.name === name)?.words ?? name.replace(/[._]/g, ' ')
}

/** What a swap changes: two swaps of one such thing exclude each other. */
export function what_of(swap: string): string {
    return swap.slice(0, swap.indexOf('='))
}

export interface Written {
    version: number
    command: string
}

export interface Shape {
    item: string
    copy: number
    disc: boolean
    boxed: boolean
    loops: [number, number][][]
}

export interface SeenFrom {
    low_mm: [number, number]
    high_mm: [number, number]
    left_out: number
    boxes: number
    shapes: Shape[]
}

export interface OutlineItem {
    name: string
    part: string
    kind: string
    system: string
    known: Known
    count: number
    all_g: number
    all_g_u: number
    at_mm: [number, number, number][]
    boxed: boolean
    size_estimated: boolean
    placed: string
}

export interface OutlineJoint {
    joint: string
    thread_mm: number
    length_mm: number
    material: string
    count: number
    holds: string
    included_in: string | null
    at_mm: [number, number, number][] | null
    all_g: number
    all_g_u: number
}

export interface Outlines {
    craft: string
    loadout: string
    views: { above: SeenFrom; side: SeenFrom }
    items: OutlineItem[]
    joints: OutlineJoint[]
    discs: { item: string; at_mm: [number, number, number]; diameter_mm: number }[]
    cg_mm: [number, number, number]
    cg_mm_u: [number, number, number]
    pack: string | null
    pack_shift_mm: number | null
    pack_shift_mm_u: number | null
    notes: string[]
}
