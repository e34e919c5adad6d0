import { useState } from 'react'

const PLACES: Readonly<Record<string, (at: number, last: number) => number>> = {
  ArrowUp: (at) => at - 1,
  ArrowDown: (at) => at + 1,
  Home: () => 0,
  End: (_, last) => last,
}

/**
 * A long list as one stop of the Tab key: within it the arrow keys, Home and End go from thing to thing. In: the things by
 * key, in order, and where the Tab key comes to (the first where that is none of them). Out: what the list is given, and
 * each thing; it may be a button, a box to tick or the like, that has no use for these keys itself.
 */
export function useOneStop(keys: readonly string[], home?: string) {
  const [focused, setFocused] = useState<string | null>(null)
  const stop = [focused, home].find((key) => key && keys.includes(key)) ?? keys[0]
  const list = {
    onKeyDown: (event: React.KeyboardEvent<HTMLElement>) => {
      const thing = (event.target as HTMLElement).closest<HTMLElement>('[data-stop]')
      const place = PLACES[event.key]
      if (!thing || !place || event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return
      event.preventDefault()
      const things = [...event.currentTarget.querySelectorAll<HTMLElement>('[data-stop]')]
      things[place(things.indexOf(thing), things.length - 1)]?.focus()
    },
    onBlur: () => setFocused(null),
  }
  const thing = (key: string) => ({
    'data-stop': '',
    tabIndex: key === stop ? 0 : -1,
    onFocus: () => setFocused(key),
  })
  return { list, thing }
}
