/* Numbers for readers: no digit below the uncertainty, the same rounding as the program's screens. */

function leading(value: number): number {
    const text = value.toExponential(0)
    return Number(text.slice(text.indexOf('e') + 1))
}

/** The place of the last digit worth writing: 1 is tenths, 0 units, -1 tens. */
export function place_of(value: number, u?: number | null): number {
    if (u !== undefined && u !== null && u > 0) return clamp(-leading(u))
    if (!Number.isFinite(value) || value === 0) return 0
    const place = 2 - leading(value)
    return place < 0 ? 0 : clamp(place)
}

function clamp(place: number): number {
    return Math.max(-9, Math.min(9, place))
}

export function at_place(value: number, place: number): string {
    if (!Number.isFinite(value)) return '–'
    let rounded = value
    if (place < 0) {
        const unit = 10 ** -place
        rounded = Math.round(value / unit) * unit
    }
    const text = rounded.toFixed(Math.max(place, 0))
    return minus(/^-[0.]*$/.test(text) ? text.slice(1) : text)
}

function minus(text: string): string {
    return text.startsWith('-') ? '−' + text.slice(1) : text
}

/** "691". */
export function digits(value: number | null | undefined, u?: number | null): string {
    return value === null || value === undefined ? '–' : at_place(value, place_of(value, u))
}

/** "± 4", or nothing where the uncertainty is nought or unknown. */
export function doubt(value: number | null | undefined, u?: number | null): string {
    if (value === null || value === undefined || !u || u <= 0) return ''
    return '± ' + at_place(u, place_of(value, u))
}

/** A change with its sign, to so many significant digits, never below a place. */
export function change(value: number | null | undefined, significant = 2, most = 2): string {
    if (value === null || value === undefined || !Number.isFinite(value)) return '–'
    if (value === 0) return '0'
    const text = at_place(value, Math.min(significant - 1 - leading(value), most))
    if (/^−?[0.]*$/.test(text)) return '0'
    return text.startsWith('−') ? text : '+' + text
}

/** A figure that somebody said, in as few digits as say it: "5.5", "620". */
export function said(value: number | null | undefined): string {
    if (value === null || value === undefined) return '–'
    return minus(String(Number(value.toPrecision(6))))
}

/** "under 1 %", "78 %", "over 99 %". */
export function chance(value: number | null | undefined): string {
    if (value === null || value === undefined) return '–'
    if (value < 0.01) return 'under 1 %'
    if (value > 0.99) return 'over 99 %'
    return `${Math.round(100 * value)} %`
}
