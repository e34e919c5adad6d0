import { useState } from 'react'
import { arranged, type Pattern } from '../../../domain/standards/edits/call-order.ts'
import { Button } from '../../../ui/button.tsx'
import { SelectField } from '../../../ui/field.tsx'
import { capital, inWords } from '../../../words/format-number.ts'
import type { Editing } from './editing.ts'

/** The usual orders in one press: a measure its trials running, two in turn, or in one run without a stop. */
export function PatternForm({ draft, edit }: Editing) {
  const [one, setOne] = useState('')
  const [other, setOther] = useState('')
  const codes = draft.minors.map(({ code }) => code)
  const first = codes.includes(one) ? one : (codes[0] ?? '')
  const second = codes.includes(other) && other !== first ? other : ''
  const arrange = (pattern: Pattern) => {
    const measures = second === '' ? [first] : [first, second]
    edit({ ...draft, calls: arranged(draft.calls, measures, pattern) })
  }
  const choices = draft.minors.map(({ code, title }) => (
    <option key={code} value={code}>
      {title}
    </option>
  ))
  return (
    <div className="draft-patterns">
      <SelectField label="Measure" value={first} onChange={(event) => setOne(event.target.value)}>
        {choices}
      </SelectField>
      <SelectField label="and" value={second} onChange={(event) => setOther(event.target.value)}>
        <option value="">no other</option>
        {choices}
      </SelectField>
      <Button onClick={() => arrange('running')}>{capital(inWords(draft.rule.trials))} times running</Button>
      <Button disabled={second === ''} onClick={() => arrange('pairs')}>
        In pairs
      </Button>
      <Button onClick={() => arrange('unbroken')}>One unbroken run</Button>
    </div>
  )
}
