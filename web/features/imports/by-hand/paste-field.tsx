import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { listsQuery } from '../../../api/soldiers/arms-and-grades.ts'
import { carriesArms } from '../../../domain/soldiers/carries-arms.ts'
import { Button } from '../../../ui/button.tsx'
import { Field } from '../../../ui/field.tsx'
import { columnsOf } from './hand-rows.ts'

interface PasteFieldProps {
  busy: boolean
  onRows: (text: string, name: string) => void
}

/** Takes rows as a spreadsheet puts them on the clipboard. */
export function PasteField({ busy, onRows }: PasteFieldProps) {
  const [text, setText] = useState('')
  const carries = carriesArms(useQuery(listsQuery).data)
  return (
    <form
      className="import-paste"
      onSubmit={(event) => {
        event.preventDefault()
        onRows(text, 'Pasted rows')
      }}
    >
      <Field
        label="Rows copied from a spreadsheet"
        hint={`With the line that says what the columns are: ${columnsOf('roster', carries).join(', ')}.`}
      >
        {(id, described) => (
          <textarea
            id={id}
            aria-describedby={described}
            required
            spellCheck={false}
            wrap="off"
            value={text}
            onChange={(event) => setText(event.target.value)}
          />
        )}
      </Field>
      <Button type="submit" kind="main" disabled={busy || text.trim() === ''}>
        {busy ? 'Reading the rows' : 'Look at the pasted rows'}
      </Button>
    </form>
  )
}
