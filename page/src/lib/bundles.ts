/* Long lists in bundles: what is out of sight is not laid out, a bundle of rows at a time. Row by row, the
 * browser would be busier with finding out which rows those are than with the rows themselves. */

export function bundles<T>(all: T[], size: number): T[][] {
    const out: T[][] = []
    for (let from = 0; from < all.length; from += size) out.push(all.slice(from, from + size))
    return out
}
