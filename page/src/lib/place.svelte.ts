/* Where the reader is: view, craft, loadout, swaps on trial and what the view itself remembers. It all
 * stands behind the # of the address, so that it can be kept, shared and gone back from. */

export interface Whereabouts {
    view: string
    craft: string
    loadout: string
    tries: string[]
    own: Record<string, string> // a view's own: what is chosen, filtered, zoomed
}

const usual_view = 'ruler'

export function read(hash: string): Whereabouts {
    const [path = '', query = ''] = hash.replace(/^#\/?/, '').split('?')
    const own: Record<string, string> = {}
    let craft = '',
        loadout = '',
        tries: string[] = []
    for (const [key, value] of new URLSearchParams(query)) {
        if (key === 'craft') craft = value
        else if (key === 'loadout') loadout = value
        else if (key === 'try') tries = value.split(',').filter((id) => id)
        else own[key] = value
    }
    return { view: path || usual_view, craft, loadout, tries, own }
}

export function write(at: Whereabouts): string {
    const parts: string[] = []
    const add = (key: string, value: string) => {
        if (value) parts.push(`${key}=${encodeURIComponent(value).replaceAll('%2C', ',').replaceAll('%3D', '=')}`)
    }
    add('craft', at.craft)
    add('loadout', at.loadout)
    add('try', at.tries.join(','))
    for (const [key, value] of Object.entries(at.own)) add(key, value)
    return `#/${at.view}${parts.length ? '?' + parts.join('&') : ''}`
}

class Place {
    at = $state.raw<Whereabouts>(read(location.hash))
    private followed = location.hash

    constructor() {
        addEventListener('hashchange', () => this.follow())
    }

    /** Takes the address as it is now. The browser tells of a new one only after what is already waiting,
     * an answer of the server too: whoever changes the place by itself follows first, or writes an old
     * place over a new one. */
    follow() {
        if (location.hash === this.followed) return
        this.followed = location.hash
        this.at = read(location.hash)
    }

    /** The address of another place; what is not said stays, but a view's own is left behind with it. */
    to(change: Partial<Whereabouts>): string {
        const own = change.own ?? (change.view && change.view !== this.at.view ? {} : this.at.own)
        return write({ ...this.at, ...change, own })
    }

    go(change: Partial<Whereabouts>, replace = false) {
        this.follow()
        const hash = this.to(change)
        if (hash === location.hash) return
        if (replace) history.replaceState(null, '', hash)
        else history.pushState(null, '', hash)
        const other = change.view !== undefined && change.view !== this.at.view
        this.follow()
        // Another view is read from its top; going back is the browser's, which knows where one was.
        if (other) scrollTo(0, 0)
    }

    /** One thing that the view remembers; empty takes it away. No step to go back. */
    remember(key: string, value: string, replace = true) {
        const own = { ...this.at.own }
        if (value) own[key] = value
        else delete own[key]
        this.go({ own }, replace)
    }
}

export const place = new Place()
