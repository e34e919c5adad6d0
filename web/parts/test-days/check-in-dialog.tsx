import { useState } from 'react'
import type { Conditions } from '#contract/sheets/sheets.ts'
import type { BookingMarkBody } from '#contract/test-days/bookings.ts'
import { formatSponsor } from '../../domain/test-days/format-check-in.ts'
import { ConfirmDialog } from '../../ui/confirm-dialog.tsx'
import { SelectField, TextField } from '../../ui/field.tsx'
import './check-in-dialog.css'

interface CheckInDialogProps {
  candidate: string
  sponsor: string | null
  sponsorCertified: boolean
  state: string
  checkIn: Conditions | null
  onMark: (mark: BookingMarkBody) => Promise<unknown>
  onClose: () => void
}

const LOOKED_AT = [
  ['uniform', 'The right uniform is worn'],
  ['equipment', 'The equipment is serviceable'],
  ['sponsorPresent', 'The sponsor is here'],
] as const

const STATES = [
  ['checked in', 'is here'],
  ['no-show', 'did not come'],
  ['excused', 'is excused'],
  ['turned away', 'came and was turned away'],
] as const

const CONFIRM = {
  'checked in': 'Check in',
  'no-show': 'Mark as no-show',
  excused: 'Mark as excused',
  'turned away': 'Turn away',
  booked: 'Take the mark back',
} as const

type State = keyof typeof CONFIRM

/** Somebody booked comes, or does not: what was found of them, or why there is no test. */
export function CheckInDialog(props: CheckInDialogProps) {
  const { candidate, sponsor, sponsorCertified, state, checkIn, onMark, onClose } = props
  const [chosen, setChosen] = useState<State>('checked in')
  const [found, setFound] = useState(checkIn ?? { uniform: true, equipment: true, sponsorPresent: sponsor !== null })
  const [reason, setReason] = useState('')
  const isThere = chosen === 'checked in' || chosen === 'turned away'
  const isWanting = chosen === 'checked in' && (Object.values(found).includes(false) || !sponsorCertified)
  return (
    <ConfirmDialog
      title={`${candidate}?`}
      confirm={CONFIRM[chosen]}
      onConfirm={() =>
        onMark({
          state: chosen,
          reason: chosen === 'checked in' ? null : reason.trim(),
          found: isThere ? found : null,
        })
      }
      onClose={onClose}
    >
      <SelectField label="The candidate" value={chosen} onChange={(event) => setChosen(event.target.value as State)}>
        {STATES.map(([value, words]) => (
          <option key={value} value={value}>
            {words}
          </option>
        ))}
        {state !== 'booked' && <option value="booked">is not here yet: take the mark back</option>}
      </SelectField>
      {isThere && (
        <fieldset className="check-in-found">
          <legend className="out-of-sight">What was found</legend>
          {LOOKED_AT.map(([key, words]) => (
            <label key={key} className="choice">
              <input
                type="checkbox"
                checked={found[key]}
                onChange={(event) => setFound({ ...found, [key]: event.target.checked })}
              />
              {words}
              {key === 'sponsorPresent' && `: ${formatSponsor(sponsor, sponsorCertified)}`}
            </label>
          ))}
        </fieldset>
      )}
      {isWanting && <p>The test can be taken all the same; its sheet is then held for the training office.</p>}
      {chosen !== 'checked in' && (
        <TextField
          label="Why"
          required
          maxLength={500}
          value={reason}
          onChange={(event) => setReason(event.target.value)}
        />
      )}
    </ConfirmDialog>
  )
}
