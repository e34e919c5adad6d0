import { useState } from 'react'
import type { Unit } from '#contract/soldiers/soldiers.ts'

/** The unit in whose row a point of the screen lies; null: none. */
const unitAt = (x: number, y: number): string | null =>
  document.elementFromPoint(x, y)?.closest('tr')?.querySelector('[data-unit]')?.getAttribute('data-unit') ?? null

/**
 * Units that are dragged to where a sister of theirs stands, by mouse, pen or finger. Out: what the handle of a unit is
 * given, and what is said of a row while something is dragged over it.
 */
export function useDragUnit(units: readonly Unit[], onDrop: (unit: Unit, onto: Unit) => void) {
  const [dragged, setDragged] = useState<Unit | null>(null)
  const [over, setOver] = useState<Unit | null>(null)
  const sisterAt = (event: React.PointerEvent) => {
    const id = unitAt(event.clientX, event.clientY)
    return (
      units.find((unit) => unit.id === id && unit.id !== dragged?.id && unit.parentId === dragged?.parentId) ?? null
    )
  }
  const end = () => {
    setDragged(null)
    setOver(null)
  }
  return {
    stateOf: (unit: Unit) => (dragged?.id === unit.id ? 'dragged' : over?.id === unit.id ? 'over' : undefined),
    handle: (unit: Unit) => ({
      onPointerDown: (event: React.PointerEvent) => {
        if (event.button !== 0) return
        event.preventDefault()
        event.currentTarget.setPointerCapture(event.pointerId)
        setDragged(unit)
      },
      onPointerMove: (event: React.PointerEvent) => dragged && setOver(sisterAt(event)),
      onPointerUp: (event: React.PointerEvent) => {
        const onto = dragged && sisterAt(event)
        if (dragged && onto) onDrop(dragged, onto)
        end()
      },
      onPointerCancel: end,
    }),
  }
}
