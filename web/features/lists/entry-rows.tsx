import { useRef, useState } from 'react'
import { Button } from '../../ui/button.tsx'
import { TextField } from '../../ui/field.tsx'
import { figure } from '../../words/format-number.ts'
import { type Entry, moved, wrongCode } from './edit-entries.ts'

interface EntryRowsProps<One extends Entry> {
  /** "grade", "thing carried". */
  kind: string
  entries: readonly One[]
  onEntries: (entries: One[]) => void
  make: (code: string) => One
  /** Today, by short form. */
  soldiers: ReadonlyMap<string, number>
  /** More of an entry. */
  children?: (entry: One, change: (entry: One) => void) => React.ReactNode
}

/** A list one puts in order: by the buttons, or by Alt and an arrow key in any field of a row. */
export function EntryRows<One extends Entry>(props: EntryRowsProps<One>) {
  const { kind, entries, onEntries, make, soldiers, children } = props
  const list = useRef<HTMLOListElement>(null)
  const move = (at: number, by: -1 | 1) => {
    onEntries(moved(entries, at, by))
    const focused = document.activeElement?.getAttribute('data-part')
    requestAnimationFrame(() => {
      const row = list.current?.children[Math.max(0, Math.min(entries.length - 1, at + by))]
      row?.querySelector<HTMLElement>(`[data-part="${focused}"]`)?.focus()
    })
  }
  return (
    <>
      <ol className="lists-rows" ref={list}>
        {entries.map((entry, at) => {
          const change = (next: One) => onEntries(entries.map((one) => (one.code === entry.code ? next : one)))
          const count = soldiers.get(entry.code) ?? 0
          return (
            <li
              key={entry.code}
              className={entry.confirmed ? '' : 'lists-new'}
              onKeyDown={(event) => {
                if (!event.altKey || (event.key !== 'ArrowUp' && event.key !== 'ArrowDown')) return
                event.preventDefault()
                move(at, event.key === 'ArrowUp' ? -1 : 1)
              }}
            >
              <b className="lists-code">{entry.code}</b>
              <TextField
                label={`${entry.code} in full`}
                data-part="name"
                maxLength={100}
                value={entry.name}
                onChange={(event) => change({ ...entry, name: event.target.value })}
              />
              {children?.(entry, change)}
              <span className="muted">
                {count === 0 ? 'nobody today' : count === 1 ? 'one soldier today' : `${figure(count)} soldiers today`}
              </span>
              <span className="lists-buttons">
                {!entry.confirmed && (
                  <Button data-part="right" onClick={() => change({ ...entry, confirmed: true })}>
                    {entry.code} is right
                  </Button>
                )}
                <Button kind="quiet" data-part="up" aria-label={`${entry.code} up`} onClick={() => move(at, -1)}>
                  Up
                </Button>
                <Button kind="quiet" data-part="down" aria-label={`${entry.code} down`} onClick={() => move(at, 1)}>
                  Down
                </Button>
                <Button
                  kind="quiet"
                  aria-label={`Take out ${entry.code}`}
                  onClick={() => onEntries(entries.filter(({ code }) => code !== entry.code))}
                >
                  Take out
                </Button>
              </span>
            </li>
          )
        })}
      </ol>
      <AddEntry kind={kind} entries={entries} onAdd={(code) => onEntries([...entries, make(code)])} />
    </>
  )
}

interface AddEntryProps {
  kind: string
  entries: readonly Entry[]
  onAdd: (code: string) => void
}

function AddEntry({ kind, entries, onAdd }: AddEntryProps) {
  const [code, setCode] = useState('')
  const [wrong, setWrong] = useState<string | null>(null)
  const add = () => {
    const found = wrongCode(code.trim(), entries)
    setWrong(found)
    if (found !== null) return
    onAdd(code.trim())
    setCode('')
  }
  return (
    <div className="lists-add">
      <TextField
        label={`New ${kind}, short form`}
        value={code}
        error={wrong}
        autoComplete="off"
        onChange={(event) => setCode(event.target.value)}
        onKeyDown={(event) => {
          if (event.key !== 'Enter') return
          event.preventDefault()
          add()
        }}
      />
      <Button onClick={add}>Add the {kind}</Button>
    </div>
  )
}
