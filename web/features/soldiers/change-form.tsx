import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { Soldier, SoldierChange, SoldierChangeBody, Unit } from '#contract/soldiers/soldiers.ts'
import type { Certification } from '#contract/standards/certifications.ts'
import { listsQuery } from '../../api/soldiers/arms-and-grades.ts'
import { correctChange, enterChange, forgetPeople } from '../../api/soldiers/people.ts'
import { armsForGrade } from '../../domain/soldiers/arms-for-grade.ts'
import { UnitOptions } from '../../parts/soldiers/unit-options.tsx'
import { codesOf, ListedChoices, Unlisted } from '../../parts/soldiers/unlisted.tsx'
import { Button } from '../../ui/button.tsx'
import { Failure } from '../../ui/failure.tsx'
import { SelectField, TextField } from '../../ui/field.tsx'
import { today } from '../../words/today.ts'
import { ArmsField } from './arms-field.tsx'
import { generalOf, wrongAt } from './wrong-at.ts'

const KINDS = {
  move: 'Moves to another unit',
  promotion: 'Changes grade',
  arms: 'Changes arms',
  leave: 'Leaves the unit',
  return: 'Joins or returns',
} as const
type Kind = keyof typeof KINDS

const LEAVING = { transferred: 'Transferred', separated: 'Separated', other: 'For another reason' } as const

/** What kind of change an entered one is. */
const kindOf = ({ left, unitId, grade, arms }: SoldierChange): Kind =>
  left ? 'leave' : unitId ? (grade || arms ? 'return' : 'move') : grade ? 'promotion' : 'arms'

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
  const client = useQueryClient()
  const lists = useQuery(listsQuery).data
  const [kind, setKind] = useState<Kind>(change ? kindOf(change) : soldier.unitId ? 'move' : 'return')
  const [from, setFrom] = useState(change?.from ?? today())
  const [unitId, setUnitId] = useState(change?.unitId ?? '')
  const [grade, setGrade] = useState(change?.grade ?? soldier.grade)
  const [arms, setArms] = useState((change?.arms ?? soldier.arms).join(', '))
  const [left, setLeft] = useState<keyof typeof LEAVING>(change?.left ?? 'transferred')
  const [reason, setReason] = useState('')
  const has = (...kinds: Kind[]) => kinds.includes(kind)
  const body = (): SoldierChangeBody => ({
    from,
    ...(has('move', 'return') && { unitId }),
    ...(has('promotion', 'return') && { grade: grade.trim() }),
    ...(has('promotion', 'arms', 'return') && { arms: codesOf(arms) }),
    ...(has('leave') && { left }),
  })
  const store = useMutation({
    mutationFn: () =>
      change
        ? correctChange(soldier.id, change.id, { ...body(), reason: reason.trim() })
        : enterChange(soldier.id, body()),
    onSuccess: () => {
      onDone(change ? 'It is corrected, and everything that hangs on it follows.' : 'It is entered.')
      return Promise.all([forgetPeople(client), client.invalidateQueries({ queryKey: listsQuery.queryKey })])
    },
  })
  const wrong = wrongAt(store.error)
  const suggested = armsForGrade(certifications, soldier.arms, soldier.grade, grade)
  const changesArms = suggested.join() !== soldier.arms.join()
  return (
    <form
      className="people-form"
      onSubmit={(event) => {
        event.preventDefault()
        store.mutate()
      }}
    >
      <div className="people-fields">
        <SelectField label="What changes" value={kind} onChange={(event) => setKind(event.target.value as Kind)}>
          {Object.entries(KINDS).map(([value, text]) => (
            <option key={value} value={value}>
              {text}
            </option>
          ))}
        </SelectField>
        <TextField
          label="From"
          type="date"
          required
          value={from}
          error={wrong('/from')}
          onChange={(event) => setFrom(event.target.value)}
        />
        {has('move', 'return') && (
          <SelectField
            label="Unit"
            required
            value={unitId}
            error={wrong('/unitId')}
            onChange={(event) => setUnitId(event.target.value)}
          >
            <option value="">Choose</option>
            <UnitOptions units={units} />
          </SelectField>
        )}
        {has('promotion', 'return') && (
          <TextField
            label="Grade"
            required
            list="people-grades"
            autoComplete="off"
            value={grade}
            error={wrong('/grade')}
            onChange={(event) => {
              const next = event.target.value
              setGrade(next)
              setArms(armsForGrade(certifications, soldier.arms, soldier.grade, next.trim()).join(', '))
            }}
          />
        )}
        <ListedChoices id="people-grades" listed={lists?.grades} />
        {has('promotion', 'arms', 'return') && (
          <ArmsField
            value={arms}
            onValue={setArms}
            listed={lists?.arms}
            error={wrong('/arms')}
            {...(kind === 'promotion' &&
              changesArms && {
                hint: `Those required of ${grade} carry ${suggested.join(', ')}; until now ${soldier.arms.join(', ') || 'none'}.`,
              })}
          />
        )}
        {has('leave') && (
          <SelectField
            label="Why"
            value={left}
            onChange={(event) => setLeft(event.target.value as keyof typeof LEAVING)}
          >
            {Object.entries(LEAVING).map(([value, text]) => (
              <option key={value} value={value}>
                {text}
              </option>
            ))}
          </SelectField>
        )}
      </div>
      {has('promotion', 'return') && <Unlisted kind="grade" codes={codesOf(grade)} listed={lists?.grades} />}
      {has('promotion', 'arms', 'return') && <Unlisted kind="arm" codes={codesOf(arms)} listed={lists?.arms} />}
      {change && (
        <TextField
          label="Why is it corrected?"
          required
          value={reason}
          error={wrong('/reason')}
          hint="It stays on record, with what was entered before."
          onChange={(event) => setReason(event.target.value)}
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
