import type { CertificationBody } from '#contract/standards/certifications.ts'
import { SelectField, TextField } from '../../ui/field.tsx'

interface TermsFieldsProps {
  body: CertificationBody
  onBody: (body: CertificationBody) => void
}

const NUMBERS = [
  ['validityMonths', 'Valid for, months'],
  ['windowDays', 'Days to pass all tests in'],
  ['waitDays', 'Days to wait before a retest'],
  ['dueDays', 'Days in which a retest is due'],
  ['reviewAfter', 'NO-GOs in a row before a review'],
  ['extensionDays', 'Days a commander may extend by'],
] as const

const FROM_ZERO: ReadonlySet<string> = new Set(['waitDays', 'dueDays', 'extensionDays'])

/** From when terms hold, how long things last under them, and what else they ask for. */
export function TermsFields({ body, onBody }: TermsFieldsProps) {
  return (
    <>
      <TextField
        label="Hold from"
        type="date"
        required
        value={body.effectiveFrom}
        onChange={(event) => onBody({ ...body, effectiveFrom: event.target.value })}
      />
      {NUMBERS.map(([field, label]) => (
        <TextField
          key={field}
          label={label}
          type="number"
          required
          min={FROM_ZERO.has(field) ? 0 : 1}
          value={body[field]}
          onChange={(event) => onBody({ ...body, [field]: Number(event.target.value) })}
        />
      ))}
      <SelectField
        label="Order of the tests"
        value={body.sequence}
        onChange={(event) => onBody({ ...body, sequence: event.target.value as CertificationBody['sequence'] })}
      >
        <option value="any">Any</option>
        <option value="in-order">As required, one after the other</option>
      </SelectField>
      <SelectField
        label="A commander’s signature"
        value={body.approval}
        onChange={(event) => onBody({ ...body, approval: event.target.value as CertificationBody['approval'] })}
      >
        <option value="none">Not asked for</option>
        <option value="required">Asked for; in force from the day it is signed</option>
        <option value="required-from-award">Asked for; once signed, in force from the last test</option>
      </SelectField>
    </>
  )
}
