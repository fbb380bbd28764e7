/* How this reader likes the page: kept in the browser, not on the bench. */

type Theme = 'auto' | 'light' | 'dark'

const where = 'pare'

class Settings {
    theme = $state<Theme>('auto')
    imperial = $state(false)

    constructor() {
        try {
            const said = JSON.parse(localStorage.getItem(where) ?? '{}') as Record<string, unknown>
            if (said.theme === 'light' || said.theme === 'dark') this.theme = said.theme
            this.imperial = said.imperial === true
        } catch {
            // A browser that keeps nothing starts as everybody does.
        }
    }

    private keep() {
        try {
            localStorage.setItem(
                where,
                JSON.stringify({ theme: this.theme, imperial: this.imperial }),
            )
        } catch {
            // As above.
        }
    }

    next_theme() {
        this.theme = this.theme === 'auto' ? 'light' : this.theme === 'light' ? 'dark' : 'auto'
        this.keep()
    }

    turn_units() {
        this.imperial = !this.imperial
        this.keep()
    }
}

export const settings = new Settings()
