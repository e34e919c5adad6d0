import type { UnitLevel } from '#contract/soldiers/levels.ts'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import { Button } from '../../../ui/button.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { generalOf } from '../wrong-at.ts'
import { UnitFields } from './unit-fields.tsx'
import { useUnitForm } from './use-unit-form.ts'

interface UnitFormProps {
  units: readonly Unit[]
  levels: readonly UnitLevel[]
  /** The one that is changed; without it a new one. */
  unit?: Unit
  /** Below this one a new one is likely to go. */
  below?: string | null
  onDone: () => void
}

/** Makes a unit, or changes what it is called, its level and its time zone, or closes it. Its place in the tree stays. */
export function UnitForm({ units, levels, unit, below = null, onDone }: UnitFormProps) {
  const form = useUnitForm({ units, levels, unit, below, onDone })
  const { saving } = form
  return (
    <form
      className="people-form"
      onSubmit={(event) => {
        event.preventDefault()
        saving.mutate()
      }}
    >
      <UnitFields form={form} units={units} levels={levels} isNew={!unit} />
      {unit && (
        <p className="muted small">
          A unit closes once nobody is in it and nothing is planned for it from that day on; its past stays. Empty the
          day to open it again.
        </p>
      )}
      <datalist id="time-zones">
        {Intl.supportedValuesOf('timeZone').map((zone) => (
          <option key={zone} value={zone} />
        ))}
      </datalist>
      <div className="people-buttons">
        <Button type="submit" kind="main" disabled={saving.isPending}>
          {unit ? 'Store the change' : 'Add the unit'}
        </Button>
        <Button onClick={onDone}>Cancel</Button>
      </div>
      {generalOf(saving.error) && <Failure error={saving.error!} />}
    </form>
  )
}
