import { type RefObject, useLayoutEffect, useState, useSyncExternalStore } from 'react'
import { type Look, lookAround } from './look.ts'

const MEDIA = ['(prefers-color-scheme: dark)', 'print', '(min-width: 2200px)']

const follow = (changed: () => void): (() => void) => {
  const lists = MEDIA.map((query) => matchMedia(query))
  for (const list of lists) list.addEventListener('change', changed)
  const observer = new MutationObserver(changed)
  observer.observe(document.documentElement, { attributes: true, attributeFilter: ['data-theme'] })
  return () => {
    for (const list of lists) list.removeEventListener('change', changed)
    observer.disconnect()
  }
}

const theme = (): string =>
  [document.documentElement.dataset.theme, ...MEDIA.map((query) => matchMedia(query).matches)].join(' ')

/** The look around an element, anew whenever the theme changes or the page goes to paper. Null before the first drawing. */
export const useLook = (element: RefObject<Element | null>): Look | null => {
  const now = useSyncExternalStore(follow, theme)
  const [look, setLook] = useState<Look | null>(null)
  // biome-ignore lint/correctness/useExhaustiveDependencies: the look is read anew when the theme is another
  useLayoutEffect(() => {
    if (element.current) setLook(lookAround(element.current))
  }, [element, now])
  return look
}
