import { useEffect, useRef, useState } from 'react'
import type { StandardBody } from '#contract/standards/standards.ts'
import { moveCall } from '../../../domain/standards/edits/call-order.ts'
import { ListKeys } from '../../../ui/list-keys.tsx'
import { useOneStop } from '../../../ui/use-one-stop.ts'
import { CallRow } from './call-row.tsx'
import { problemAt } from './draft-problems.ts'
import type { Editing } from './editing.ts'
import { PatternForm } from './pattern-form.tsx'
import { useDrag } from './use-drag.ts'

/** Where a key with Alt takes the call at a place; undefined: it takes it nowhere. */
const placeFor = (key: string, at: number, length: number): number | undefined =>
  ({ ArrowUp: at - 1, ArrowDown: at + 1, Home: 0, End: length - 1 })[key]

/** Names a call among those of its standard. */
const keyOf = ({ measure, trial }: StandardBody['calls'][number]): string => `${measure} ${trial}`

/** The order of calls: by pattern, by dragging, by keys; all of them are one stop of the Tab key. */
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
    if (to === undefined) return
    event.preventDefault()
    move(at, to)
  }
  const open = (at: number) => {
    setOpened(opened === at ? null : at)
    onCall(at)
  }
  const drag = useDrag(move)
  const { list: keys, thing } = useOneStop(calls.map(keyOf), opened === null ? undefined : keyOf(calls[opened]!))
  const titles = new Map(draft.minors.map(({ code, title }) => [code, title]))
  const wrong = problemAt(problems, '/calls')
  return (
    <>
      <PatternForm {...editing} />
      <p className="muted">Drag a call to another place. Open one to say something at it alone.</p>
      <ListKeys
        id="call-keys"
        more={
          <>
            with <kbd>Alt</kbd> they move a call; so do <kbd>Home</kbd> <kbd>End</kbd>.
          </>
        }
      />
      {wrong && <p className="draft-wrong">{wrong}</p>}
      <ol className="draft-calls" ref={list} {...keys}>
        {calls.map((call, at) => (
          <li key={keyOf(call)} className={call.unbroken ? 'is-unbroken' : undefined} {...(opened !== at && drag(at))}>
            <CallRow
              {...editing}
              at={at}
              title={titles.get(call.measure) ?? call.measure}
              stop={thing(keyOf(call))}
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
