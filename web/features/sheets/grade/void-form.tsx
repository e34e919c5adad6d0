import { useState } from 'react'
import type { SheetBody } from '#contract/sheets/sheets.ts'
import { Button } from '../../../ui/button.tsx'
import { TextField } from '../../../ui/field.tsx'

type Void = NonNullable<SheetBody['void']>

const KINDS: readonly (readonly [kind: Void['kind'], text: string])[] = [
  ['weather', 'Weather'],
  ['injury', 'Injury'],
  ['equipment', 'Equipment'],
  ['interrupted', 'Interrupted'],
  ['other', 'Another reason'],
]

interface VoidFormProps {
  /** The test is lost already: such a void is held. */
  isLost: boolean
  onVoid: (reason: Void) => void
}

/** Ends a test that is no attempt: nobody's fault, and in no figure. */
export function VoidForm({ isLost, onVoid }: VoidFormProps) {
  const [kind, setKind] = useState<Void['kind'] | null>(null)
  const [text, setText] = useState('')
  const isMissing = kind === null || (kind === 'other' && text.trim() === '')
  return (
    <form
      className="void-form"
      onSubmit={(event) => {
        event.preventDefault()
        if (kind !== null && !isMissing) onVoid({ kind, text: text.trim() })
      }}
    >
      <fieldset className="choices">
        <legend>Why the test is void</legend>
        {KINDS.map(([value, words]) => (
          <label key={value} className="choice">
            <input type="radio" name="void" checked={kind === value} onChange={() => setKind(value)} />
            {words}
          </label>
        ))}
      </fieldset>
      <TextField
        label={kind === 'other' ? 'The reason' : 'In more words (may stay empty)'}
        autoComplete="off"
        maxLength={2000}
        value={text}
        onChange={(event) => setText(event.target.value)}
      />
      {isLost && <p>The test is lost already: a void after that is held for the training office.</p>}
      <Button type="submit" disabled={isMissing}>
        End the test void
      </Button>
    </form>
  )
}
