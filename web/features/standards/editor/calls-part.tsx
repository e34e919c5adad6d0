import { useEffect, useRef, useState } from 'react'
import { moveCall } from '../../../domain/standards/edits/call-order.ts'
import { saying } from '../../../domain/standards/edits/call-said.ts'
import { replaced } from '../../../domain/standards/edits/list-edits.ts'
import { sayCall } from '../../../domain/standards/say-call.ts'
import { Button } from '../../../ui/button.tsx'
import { problemAt } from './draft-problems.ts'
import type { Editing } from './editing.ts'
import { PatternForm } from './pattern-form.tsx'
import { SaidFields } from './said-fields.tsx'
import { useDrag } from './use-drag.ts'

/** Where a key with Alt takes the call at a place; undefined: it takes it nowhere. */
const placeFor = (key: string, at: number, length: number): number | undefined =>
  ({ ArrowUp: at - 1, ArrowDown: at + 1, Home: 0, End: length - 1 })[key]

/** The order of calls: by pattern, by dragging, by keys; opened, a call says something of its own. */
export function CallsPart(editing: Editing & { onCall: (at: number) => void }) {
  const { draft, problems, edit, onCall } = editing
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
  const drag = useDrag(move)
  const titles = new Map(draft.minors.map(({ code, title }) => [code, title]))
  const wrong = problemAt(problems, '/calls')
  const press = (event: React.KeyboardEvent, at: number) => {
    const to = event.altKey ? placeFor(event.key, at, calls.length) : undefined
    if (to !== undefined) {
      event.preventDefault()
      move(at, to)
    } else if (event.key === 'ArrowUp' || event.key === 'ArrowDown') {
      event.preventDefault()
      rowAt(at + (event.key === 'ArrowUp' ? -1 : 1))?.focus()
    }
  }
  return (
    <>
      <PatternForm {...editing} />
      <p className="muted">
        Drag a call, or move it with <kbd>Alt</kbd> and <kbd>↑</kbd> <kbd>↓</kbd> <kbd>Home</kbd> <kbd>End</kbd>. Open
        one to say something at it alone.
      </p>
      {wrong && <p className="draft-wrong">{wrong}</p>}
      <ol className="draft-calls" ref={list}>
        {calls.map((call, at) => {
          const problem = problemAt(problems, `/calls/${at}`, true)
          return (
            <li
              key={`${call.measure} ${call.trial}`}
              className={call.unbroken ? 'is-unbroken' : undefined}
              {...drag(at)}
            >
              <button
                type="button"
                className="draft-call"
                data-call={at}
                aria-expanded={opened === at}
                onKeyDown={(event) => press(event, at)}
                onClick={() => {
                  setOpened(opened === at ? null : at)
                  onCall(at)
                }}
              >
                <span className="draft-number">{at + 1}</span>
                <b>{sayCall(call) || titles.get(call.measure)}</b>
                <span className="muted">
                  {titles.get(call.measure) ?? call.measure}, {call.trial}
                  {call.from && `, from ${call.from}`}
                </span>
              </button>
              {problem && <p className="draft-wrong">{problem}</p>}
              {opened === at && (
                <div className="draft-opened">
                  <div className="draft-buttons">
                    <Button kind="quiet" onClick={() => move(at, at - 1)}>
                      Up
                    </Button>
                    <Button kind="quiet" onClick={() => move(at, at + 1)}>
                      Down
                    </Button>
                    <Button kind="quiet" onClick={() => move(at, calls.length - 1)}>
                      To the end
                    </Button>
                    <label className="tick">
                      <input
                        type="checkbox"
                        checked={call.readable !== false}
                        onChange={(event) => {
                          const { readable: _readable, ...rest } = call
                          const next = event.target.checked ? rest : { ...rest, readable: false }
                          edit({ ...draft, calls: replaced(calls, at, next) })
                        }}
                      />
                      Gauges are read here
                    </label>
                  </div>
                  <SaidFields
                    arms={draft.arms}
                    said={call}
                    problems={problems}
                    pointers={[`/calls/${at}`]}
                    onSaid={(said, field) =>
                      edit({ ...draft, calls: replaced(calls, at, saying(call, said)) }, `call ${at} ${field}`)
                    }
                  />
                </div>
              )}
            </li>
          )
        })}
      </ol>
    </>
  )
}
