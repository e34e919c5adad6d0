import { useEffect, useRef } from 'react'
import { deedOf, type KeyDeed } from './marking-keys.ts'

/** Calls back for the keys of the running sheet, unless somebody types in a field or a panel lies over the page. */
export const useMarkingKeys = (isOn: boolean, onDeed: (deed: KeyDeed) => void): void => {
  const act = useRef(onDeed)
  act.current = onDeed
  useEffect(() => {
    if (!isOn) return
    const press = (event: KeyboardEvent) => {
      if (event.target instanceof HTMLElement && event.target.closest('input, textarea, select')) return
      if (document.querySelector('dialog[open]')) return
      const deed = deedOf(event)
      if (!deed) return
      event.preventDefault()
      act.current(deed)
    }
    document.addEventListener('keydown', press)
    return () => document.removeEventListener('keydown', press)
  }, [isOn])
}
