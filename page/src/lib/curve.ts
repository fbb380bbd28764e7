/* What `pare sheet --curve` answers. */
export interface Axis {
    name: string
    unit: string
    values: number[]
}

export interface Trace {
    craft: string
    of: string
    words: string
    sentence: string
    run?: string
    x: Axis
    y: Axis
    marks: { name: string; x: number; y: number; y_u: number }[]
    why?: string
}

/** The line at a place between its points: only to put a mark of the drawing there. */
export function nearest(values: number[], x: number): number {
    let found = 0
    values.forEach((value, i) => {
        if (Math.abs(value - x) < Math.abs(values[found]! - x)) found = i
    })
    return found
}
