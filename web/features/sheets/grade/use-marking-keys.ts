import { type RefObject, useEffect, useRef } from 'react'
import { actionOf, type KeyAction } from './marking-keys.ts'
import type { Settings } from './settings.ts'

/**
 * Calls back for the keys of the running sheet, unless somebody types in a field or a panel lies over the page. `within`: the
 * sheet is part of another page, and only keys pressed in it count.
 */
export const useMarkingKeys = (
  settings: Settings,
  onAction: (action: KeyAction) => void,
  within: RefObject<HTMLElement | null> | null,
): void => {
  const act = useRef({ settings, onAction })
  act.current = { settings, onAction }
  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      if (within && !within.current?.contains(event.target as Node)) return
      if (event.target instanceof HTMLElement && event.target.closest('input, textarea, select')) return
      // Enter and the space bar press what has the focus; a mark that was tapped has it, and a clicker means none of them.
      if (/^(Enter| )$/.test(event.key) && event.target instanceof HTMLElement && event.target.closest('button, a')) {
        if (!event.target.closest('.marks') || !Object.values(act.current.settings.own).includes(event.key)) return
      }
      if (document.querySelector('dialog[open]')) return
      const action = actionOf(event, act.current.settings)
      if (!action) return
      event.preventDefault()
      act.current.onAction(action)
    }
    document.addEventListener('keydown', press)
    return () => document.removeEventListener('keydown', press)
  }, [within])
}
