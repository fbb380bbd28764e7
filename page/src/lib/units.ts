/* The units that people read. The server speaks grams and millimetres; who thinks in inches and ounces
 * sees those, by the one table below. Nothing else on the page converts. */
import { at_place, change, digits, doubt, place_of, said } from './digits.ts'
import { settings } from './settings.svelte.ts'

interface Turn {
    to: string
    by: number
}

const imperial: Record<string, Turn> = {
    g: { to: 'oz', by: 1 / 28.349523125 }, // the avoirdupois ounce, exact by definition
    mm: { to: 'in', by: 1 / 25.4 },
    m: { to: 'ft', by: 1 / 0.3048 },
    'm/s': { to: 'ft/s', by: 1 / 0.3048 },
}

/* Shares are told as percentages everywhere. */
const always: Record<string, Turn> = {
    share: { to: '%', by: 100 },
}

function turn(unit: string): Turn {
    return always[unit] ?? (settings.imperial ? imperial[unit] : undefined) ?? { to: unit, by: 1 }
}

export function unit_of(unit: string): string {
    return turn(unit).to
}

/** A number in the reader's unit, for drawing a scale. */
export function turned(value: number, unit: string): number {
    return value * turn(unit).by
}

/** From the reader's unit back, for the ends of a scale. */
export function turned_back(value: number, unit: string): number {
    return value / turn(unit).by
}

function scaled(value: number | null | undefined, by: number): number | null | undefined {
    return value === null || value === undefined ? value : value * by
}

function behind(unit: string): string {
    return unit ? '\u00a0' + unit : ''
}

/** "691 g" */
export function short(value: number | null | undefined, u: number | null | undefined, unit: string) {
    const t = turn(unit)
    return digits(scaled(value, t.by), scaled(u, t.by)) + behind(t.to)
}

/** "691 ± 4 g" */
export function long(value: number | null | undefined, u: number | null | undefined, unit: string) {
    const t = turn(unit)
    const v = scaled(value, t.by),
        w = scaled(u, t.by),
        about = doubt(v, w)
    return digits(v, w) + (about ? '\u00a0' + about.replace(' ', '\u00a0') : '') + behind(t.to)
}

/** The value alone and its doubt alone, for a column of figures. */
export function split(value: number | null | undefined, u: number | null | undefined, unit: string) {
    const t = turn(unit)
    const v = scaled(value, t.by),
        w = scaled(u, t.by)
    return { value: digits(v, w), doubt: doubt(v, w), unit: t.to }
}

/** "+4.1 g" */
export function signed(
    value: number | null | undefined,
    unit: string,
    significant = 2,
    with_unit = true,
) {
    const t = turn(unit)
    const most = t.to === 'oz' || t.to === 'in' ? 3 : 2
    return change(scaled(value, t.by), significant, most) + (with_unit ? behind(t.to) : '')
}

/** Grams of one thing as a label: whole ones, tenths below ten. */
export function grams(value: number, with_unit = true): string {
    const t = turn('g')
    const v = value * t.by
    const text = t.to === 'oz' ? at_place(v, 2) : at_place(v, Math.abs(v) < 10 ? 1 : 0)
    return text + (with_unit ? behind(t.to) : '')
}

/** Grams of a whole craft where tenths count: a set and its bound. */
export function fine(value: number): string {
    return short(value, 0.1, 'g')
}

/** A figure that somebody said, as it was said; turned, to four digits. */
export function stated(value: number, unit: string): string {
    const t = turn(unit)
    return said(t.by === 1 ? value : Number((value * t.by).toPrecision(4))) + behind(t.to)
}

/** The server's own sentence with its speeds in the reader's unit, to as many digits. */
export function retold(sentence: string): string {
    const t = turn('m/s')
    if (t.by === 1) return sentence
    return sentence.replace(/(\d+(?:\.\d+)?) m\/s/g, (_, number: string) => {
        const figures = number.replace('.', '').replace(/^0+(?=\d)/, '').length
        return `${Number((Number(number) * t.by).toPrecision(Math.max(figures, 1)))} ${t.to}`
    })
}

/** Digits of a value that has an uncertainty, in the reader's unit: for tables. */
export function place_in(value: number, u: number | null | undefined, unit: string): number {
    const t = turn(unit)
    return place_of(value * t.by, u ? u * t.by : u)
}
