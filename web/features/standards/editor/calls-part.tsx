import { useEffect, useRef, useState } from 'react'
import { moveCall } from '../../../domain/standards/edits/call-order.ts'
import { CallRow } from './call-row.tsx'
import { problemAt } from './draft-problems.ts'
import type { Editing } from './editing.ts'
import { PatternForm } from './pattern-form.tsx'
import { useDrag } from './use-drag.ts'

/** Where a key with Alt takes the call at a place; undefined: it takes it nowhere. */
const placeFor = (key: string, at: number, length: number): number | undefined =>
  ({ ArrowUp: at - 1, ArrowDown: at + 1, Home: 0, End: length - 1 })[key]

/** The order of calls: by pattern, by dragging, by keys. */
export function CallsPart({ onCall, ...editing }: Editing & { onCall: (at: number) => void }) {
  const { draft, problems, edit } = editing
  const { calls } = draft
  const [opened, setOpened] = useState<number | null>(null)
  const list = useRef<HTMLOListElement>(null)
  const focusAt = useRef<number | null>(null)
  const rowAt = (at: number) => list.current?.querySelector<HTMLElement>(`[data-call="${at}"]`)
  useEffect(() => {
    if (focusAt.current !== null) rowAt(focusAt.current)?.focus()
    focusAt.current = null
  })
  const move = (from: number, to: number) => {
    if (to < 0 || to >= calls.length || to === from) return
    focusAt.current = to
    if (opened !== null) setOpened(opened === from ? to : null)
    edit({ ...draft, calls: moveCall(calls, from, to) })
  }
  const press = (event: React.KeyboardEvent, at: number) => {
    const to = event.altKey ? placeFor(event.key, at, calls.length) : undefined
    const step = { ArrowUp: -1, ArrowDown: 1 }[event.key]
    if (to === undefined && step === undefined) return
    event.preventDefault()
    if (to !== undefined) move(at, to)
    else rowAt(at + step!)?.focus()
  }
  const open = (at: number) => {
    setOpened(opened === at ? null : at)
    onCall(at)
  }
  const drag = useDrag(move)
  const titles = new Map(draft.minors.map(({ code, title }) => [code, title]))
  const wrong = problemAt(problems, '/calls')
  return (
    <>
      <PatternForm {...editing} />
      <p className="muted">
        Drag a call, or move it with <kbd>Alt</kbd> and <kbd>↑</kbd> <kbd>↓</kbd> <kbd>Home</kbd> <kbd>End</kbd>. Open
        one to say something at it alone.
      </p>
      {wrong && <p className="draft-wrong">{wrong}</p>}
      <ol className="draft-calls" ref={list}>
        {calls.map(({ measure, trial, unbroken }, at) => (
          <li
            key={`${measure} ${trial}`}
            className={unbroken ? 'is-unbroken' : undefined}
            {...(opened !== at && drag(at))}
          >
            <CallRow
              {...editing}
              at={at}
              title={titles.get(measure) ?? measure}
              isOpen={opened === at}
              onOpen={() => open(at)}
              onKey={(event) => press(event, at)}
              onMove={(to) => move(at, to)}
            />
          </li>
        ))}
      </ol>
    </>
  )
}
