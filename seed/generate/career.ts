import type { PlainDate } from '../../server/domain/calendar/plain-date.ts'
import { type Arm, armsOf, type Duty, type Grade } from './establishment.ts'

export type LeftKind = 'transferred' | 'separated' | 'other'

/** What holds of a soldier from a day on: a grade in a unit, or being out of the strength. */
export type Step = { from: PlainDate; grade: Grade; unitKey: string } | { from: PlainDate; left: LeftKind }

/** A soldier's way through the unit: the steps in order of their days, the first one joining; the last duty held. */
export interface Career {
  duty: Duty
  steps: Step[]
}

/** A change as `POST /api/soldiers/{id}/changes` takes it, but for the unit, which is named by key. */
export interface PlannedChange {
  from: PlainDate
  grade?: Grade
  arms?: Arm[]
  unitKey?: string
  left?: LeftKind
}

/** The part of a soldier's record that steps give. */
export interface ServiceRecord {
  grade: Grade
  arms: Arm[]
  unitKey: string
  from: PlainDate
  changes: PlannedChange[]
}

/**
 * Steps as they are entered: how the soldier joined, then what changes, and nothing that stays. After a time out of
 * the strength the unit is named again even where it is the old one, since that is what ends the absence.
 * Throws a RangeError unless the first step joins and the days rise.
 */
export function toServiceRecord(steps: readonly Step[]): ServiceRecord {
  const [first, ...later] = steps
  if (!first || 'left' in first) throw new RangeError('A career begins with joining a unit.')
  let { grade, unitKey, from } = first
  let away = false
  const changes = later.map((step): PlannedChange => {
    if (step.from <= from) throw new RangeError(`The step of ${step.from} does not lie after ${from}.`)
    from = step.from
    if ('left' in step) {
      away = true
      return { from, left: step.left }
    }
    const change: PlannedChange = { from }
    if (step.grade !== grade) change.grade = step.grade
    if (armsOf(step.grade).join() !== armsOf(grade).join()) change.arms = armsOf(step.grade)
    if (away || step.unitKey !== unitKey) change.unitKey = step.unitKey
    grade = step.grade
    unitKey = step.unitKey
    away = false
    return change
  })
  return { grade: first.grade, arms: armsOf(first.grade), unitKey: first.unitKey, from: first.from, changes }
}
