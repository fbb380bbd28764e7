/* Keys that work everywhere, and the list of them that `?` shows. A view says its own in `view_keys`.
 * No key acts while something is typed. */

export interface Key {
    key: string // as KeyboardEvent.key says it
    shown?: string
    does: string
    run: () => void
}

export function typing(target: EventTarget | null): boolean {
    return (
        target instanceof HTMLElement &&
        (target.isContentEditable ||
            target instanceof HTMLTextAreaElement ||
            target instanceof HTMLSelectElement ||
            (target instanceof HTMLInputElement &&
                !['checkbox', 'radio', 'range', 'button'].includes(target.type)))
    )
}

/** @param last  keys of the whole page, which a view's own go before: digits are a reading on the scale's
 * keypad, and views elsewhere. Events reach the document before the window. */
export function listen(keys: () => Key[], last = false): () => void {
    const where = last ? window : document
    const on = (event: KeyboardEvent) => {
        const command = event.ctrlKey || event.metaKey
        const name = (command ? 'Ctrl+' : '') + (command && event.shiftKey ? 'Shift+' : '') + event.key
        if (event.altKey || event.defaultPrevented || typing(event.target)) return
        const found = keys().find((one) => one.key.toLowerCase() === name.toLowerCase())
        if (!found) return
        event.preventDefault()
        found.run()
    }
    where.addEventListener('keydown', on as EventListener)
    return () => where.removeEventListener('keydown', on as EventListener)
}

/** Arrow keys within a row or list of focusable things: moves the focus, the rest is the browser's. */
export function rove(event: KeyboardEvent, things: (HTMLElement | SVGElement)[]): void {
    const steps: Record<string, number> = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }
    const at = things.indexOf(document.activeElement as HTMLElement | SVGElement)
    let to = -1
    if (event.key === 'Home') to = 0
    else if (event.key === 'End') to = things.length - 1
    else if (steps[event.key] !== undefined)
        to = Math.min(Math.max(at + steps[event.key]!, 0), things.length - 1)
    if (to < 0) return
    event.preventDefault()
    things[to]?.focus()
}
