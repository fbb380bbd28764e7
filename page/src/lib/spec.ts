/* Keys of answers name their unit at the end (`length_mm`); keys that are typed do not (`length`), and
 * the unit stands with the value. This is the way between the two. */

const units: [string, string][] = [
    ['_rpm_v', 'rpm/V'],
    ['_mohm', 'mohm'],
    ['_mah', 'mAh'],
    ['_for_s', 's'],
    ['_ghz', 'GHz'],
    ['_min', 'min'],
    ['_mm', 'mm'],
    ['_db', 'dB'],
    ['_uf', 'uF'],
    ['_g', 'g'],
    ['_v', 'V'],
    ['_a', 'A'],
    ['_w', 'W'],
]
/* Keys whose last letters only look like a unit. */
const whole: Record<string, string> = { kv_rpm_v: 'kv', no_load_at_v: 'no_load_at', margin: 'margin' }
/* Said bare, since the key says what they count. */
const bare = new Set(['kv_rpm_v'])

export function typed_key(key: string): string {
    if (whole[key]) return whole[key]!
    if (key.endsWith('_for_s')) return key.slice(0, -2)
    const found = units.find(([end]) => key.endsWith(end))
    return found ? key.slice(0, -found[0].length) : key
}

export function typed_value(key: string, value: unknown): string {
    const found = bare.has(key) ? undefined : units.find(([end]) => key.endsWith(end))
    const unit = found ? ' ' + found[1] : ''
    if (Array.isArray(value)) {
        const by = key.startsWith('stator') ? ' x ' : ' .. '
        return value.map((one) => `${one}${unit}`).join(by)
    }
    return value === null || value === undefined ? '' : `${value}${unit}`
}
