/* Labels on lines: each hangs where its thing begins, in the first row in which it meets no other. */

export interface Label {
    x: number
    width: number
    weight: number // the heavier gets its place first
}

let context: CanvasRenderingContext2D | null = null

/** How wide a text of the page's type is, in pixels. */
export function width_of(text: string, weight = 400, px = 13): number {
    context ??= document.createElement('canvas').getContext('2d')
    if (!context) return 0.55 * px * text.length
    context.font = `${weight} ${px}px ${getComputedStyle(document.documentElement).fontFamily}`
    return context.measureText(text).width
}

/** @returns for each label its row and left edge; null: it found no room. */
export function hang<T extends Label>(
    labels: T[],
    rows: number,
    right: number,
    gap = 10,
): ({ row: number; x: number } | null)[] {
    const placed: { row: number; from: number; to: number }[] = []
    const lines: { row: number; x: number }[] = []
    const out: ({ row: number; x: number } | null)[] = labels.map(() => null)
    const order = labels.map((_, i) => i).sort((a, b) => labels[b]!.weight - labels[a]!.weight)
    for (const i of order) {
        const { x: wish, width } = labels[i]!
        const x = Math.min(wish, right - width)
        if (x < 0) continue
        for (let row = 0; row < rows; row++) {
            const meets = placed.some((p) => p.row === row && x < p.to + gap && x + width + gap > p.from)
            // A label may not stand on the line of one further out, nor its line cross a nearer label.
            const crossed = lines.some((l) => l.row > row && l.x > x - 3 && l.x < x + width + 3)
            const crosses = placed.some((p) => p.row < row && wish > p.from - 3 && wish < p.to + 3)
            if (meets || crossed || crosses) continue
            placed.push({ row, from: x, to: x + width })
            lines.push({ row, x: wish })
            out[i] = { row, x }
            break
        }
    }
    return out
}
