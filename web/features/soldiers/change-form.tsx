import type { Soldier, SoldierChange, Unit } from '#contract/soldiers/soldiers.ts'
import type { Certification } from '#contract/standards/certifications.ts'
import { codesOf, Unlisted } from '../../parts/soldiers/unlisted.tsx'
import { Button } from '../../ui/button.tsx'
import { Failure } from '../../ui/failure.tsx'
import { TextField } from '../../ui/field.tsx'
import { ChangeFields } from './change-fields.tsx'
import { useChangeForm } from './use-change-form.ts'
import { generalOf, wrongAt } from './wrong-at.ts'

interface ChangeFormProps {
  soldier: Soldier
  units: readonly Unit[]
  certifications: readonly Certification[]
  /** The change to correct; null: a new one is entered. */
  change: SoldierChange | null
  onDone: (said: string) => void
  onCancel: () => void
}

/** Enters what changes from a day on, or corrects what was entered. A new grade comes with the arms that go with it. */
export function ChangeForm({ soldier, units, certifications, change, onDone, onCancel }: ChangeFormProps) {
  const form = useChangeForm({ soldier, certifications, change, onDone })
  const { has, grade, arms, lists, store } = form
  return (
    <form
      className="people-form"
      onSubmit={(event) => {
        event.preventDefault()
        store.mutate()
      }}
    >
      <ChangeFields form={form} soldier={soldier} units={units} />
      {has('promotion', 'return') && <Unlisted kind="grade" codes={codesOf(grade)} listed={lists?.grades} />}
      {has('promotion', 'arms', 'return') && <Unlisted kind="arm" codes={codesOf(arms)} listed={lists?.arms} />}
      {change && (
        <TextField
          label="Why is it corrected?"
          required
          value={form.reason}
          error={wrongAt(store.error)('/reason')}
          hint="It stays on record, with what was entered before."
          onChange={(event) => form.setReason(event.target.value)}
        />
      )}
      <div className="people-buttons">
        <Button type="submit" kind="main" disabled={store.isPending}>
          {change ? 'Correct it' : 'Enter it'}
        </Button>
        <Button onClick={onCancel}>Cancel</Button>
      </div>
      {generalOf(store.error) && <Failure error={store.error!} />}
    </form>
  )
}
