import { useState } from 'react'
import { Field } from '../../../ui/field.tsx'

interface LinesFieldProps<Item> {
  label: string
  hint?: string
  error?: string | null
  rows?: number
  value: readonly Item[]
  /** A thing as its line, and the list from its lines: what stood there when one began to write, and the lines now. */
  toLine: (item: Item) => string
  read: (before: readonly Item[], lines: readonly string[]) => Item[]
  onValue: (value: Item[]) => void
}

const linesOf = (text: string): string[] => text.split('\n').flatMap((line) => line.trim() || [])

/**
 * A list, one thing a line. It is read anew at every sign against what stood there when one began to write, so that a line
 * that grows letter by letter is one new thing in the end.
 */
export function LinesField<Item>(props: LinesFieldProps<Item>) {
  const { label, hint, error, rows = 4, value, toLine, read, onValue } = props
  const [written, setWritten] = useState({ text: value.map(toLine).join('\n'), given: value, before: value })
  // Otherwise than it was written here: taken back, or another measure.
  const isOurs = written.given === value
  const { text, before } = isOurs ? written : { text: value.map(toLine).join('\n'), before: value }
  return (
    <Field label={label} hint={hint} error={error}>
      {(id, described) => (
        <textarea
          id={id}
          rows={Math.max(rows, text.split('\n').length + 1)}
          aria-describedby={described}
          aria-invalid={error ? true : undefined}
          value={text}
          onChange={(event) => {
            const next = read(before, linesOf(event.target.value))
            setWritten({ text: event.target.value, given: next, before })
            onValue(next)
          }}
          onBlur={() => setWritten({ text: value.map(toLine).join('\n'), given: value, before: value })}
        />
      )}
    </Field>
  )
}

interface TextLinesProps extends Pick<LinesFieldProps<string>, 'label' | 'hint' | 'error' | 'rows'> {
  value: readonly string[]
  onValue: (value: string[]) => void
}

/** Plain lines. */
export const TextLines = (props: TextLinesProps) => (
  <LinesField {...props} toLine={(line) => line} read={(_, lines) => [...lines]} />
)
