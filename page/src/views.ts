/* The views of the page, in the order in which they stand and with the keys that bring them up.
 *
 * A view is a component without properties in src/views. It reads `place.at` (craft, loadout, tries,
 * `own`: what it keeps in the address, written by `place.remember`) and `bench` (sheet, ruler, swaps,
 * each for the present place), asks the server for more by `ask` from lib/api.ts, in an $effect that
 * reads `place.at` and `bench.turn`, and writes by `bench.write`. It says figures by lib/units.ts and
 * lib/digits.ts and computes none. Sizes and places of drawings are set by `style:` directives or SVG
 * attributes: the server's policy forbids style attributes. */
import type { Component } from 'svelte'
import Bench from './views/Bench.svelte'
import Best from './views/Best.svelte'
import Flight from './views/Flight.svelte'
import Margins from './views/Margins.svelte'
import Outline from './views/Outline.svelte'
import Ruler from './views/Ruler.svelte'
import Swaps from './views/Swaps.svelte'

export interface View {
    id: string
    name: string
    key: string
    show: Component
}

export const views: View[] = [
    { id: 'ruler', name: 'Ruler', key: '1', show: Ruler },
    { id: 'outline', name: 'Outline', key: '2', show: Outline },
    { id: 'swaps', name: 'Swaps', key: '3', show: Swaps },
    { id: 'best', name: 'Best set', key: '4', show: Best },
    { id: 'margins', name: 'Margins', key: '5', show: Margins },
    { id: 'flight', name: 'Flight', key: '6', show: Flight },
    { id: 'bench', name: 'Bench', key: '7', show: Bench },
]
