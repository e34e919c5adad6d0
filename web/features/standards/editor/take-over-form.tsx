import { useState } from 'react'
import { takenOver } from '../../../domain/standards/edits/take-over.ts'
import { Button } from '../../../ui/button.tsx'
import { SelectField } from '../../../ui/field.tsx'
import type { Editing } from './editing.ts'

/** A measure that resembles another one begins with all that one has. */
export function TakeOverForm({ draft, edit, code }: Editing & { code: string }) {
  const others = draft.minors.filter((minor) => minor.code !== code)
  const [chosen, setChosen] = useState('')
  const from = others.some((other) => other.code === chosen) ? chosen : (others[0]?.code ?? '')
  return (
    <div className="draft-buttons">
      <SelectField label="Resembles another measure" value={from} onChange={(event) => setChosen(event.target.value)}>
        {others.map((other) => (
          <option key={other.code} value={other.code}>
            {other.title}
          </option>
        ))}
      </SelectField>
      <Button onClick={() => edit(takenOver(draft, code, from))}>Take over all but the title</Button>
    </div>
  )
}
