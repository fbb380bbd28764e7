/* Where the slices of a ruler lie: end to end, in the ruler's order, each as wide as its grams.
 *
 * Sums of grams only place things on the drawing; every number that is read is the server's. */
import type { Ruler, Slice } from './answers.ts'

export interface Laid {
    slice: Slice
    from: number // g
    to: number
}

export interface LaidSystem {
    system: string
    grams: number
    off: number
    from: number
    to: number
}

export function lay(ruler: Ruler): { slices: Laid[]; systems: LaidSystem[]; end: number } {
    const slices: Laid[] = []
    const systems: LaidSystem[] = []
    let at = 0
    for (const slice of ruler.slices) {
        const from = at
        at += Math.max(slice.grams, 0)
        slices.push({ slice, from, to: at })
        const last = systems.at(-1)
        if (last && last.system === slice.system) last.to = at
        else {
            const said = ruler.systems.find((one) => one.system === slice.system)
            systems.push({
                system: slice.system,
                grams: said?.grams ?? 0,
                off: said?.off_g ?? 0,
                from,
                to: at,
            })
        }
    }
    return { slices, systems, end: at }
}

/** The texture of a slice. */
export function texture(slice: Slice): string {
    if (slice.of === 'unlisted') return 'url(#unlisted)'
    switch (slice.known) {
        case 'stated':
            return 'url(#stated)'
        case 'computed':
            return 'url(#computed)'
        case 'estimated':
            return 'url(#estimated)'
        default:
            return 'var(--fill)'
    }
}

/** Steps of a scale that read well: 1, 2 or 5 of a power of ten, at most `most` of them. */
export function step_of(span: number, most: number): number {
    for (let power = 1e-3; ; power *= 10)
        for (const first of [1, 2, 5]) if (span / (first * power) <= most) return first * power
}
