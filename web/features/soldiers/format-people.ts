import { dayInZone } from '#calendar/day-in-zone.ts'
import type { Absence } from '#contract/soldiers/absences.ts'
import type { Soldier, SoldierChange, SoldierDetail, Unit } from '#contract/soldiers/soldiers.ts'
import { shortName } from '../../domain/soldiers/format-person.ts'
import { fullUnitName } from '../../domain/soldiers/unit-tree.ts'
import { formatDay, formatDayInFull } from '../../words/format-day.ts'
import { counted, plural } from '../../words/format-number.ts'

export const LEFT_WORDS = { transferred: 'transferred', separated: 'separated', other: 'left' } as const

export const STRENGTH_CHOICES = { serving: 'On strength', absent: 'Absent', left: 'Left' } as const

/** How the list answers: how many, of which day. */
export const formatPeople = (count: number, strength: string, day: string, today: string): string => {
  const who = strength === 'absent' ? 'absent' : strength === 'left' ? 'gone' : 'on strength'
  const when = day === today ? 'today' : `on ${formatDayInFull(day, today)}`
  if (count === 0) return `Nobody is ${who} ${when}.`
  return `${counted(count, 'soldier')} ${plural(count, 'is', 'are')} ${who} ${when}.`
}

/** Where somebody stands as of a day: unit, or since when and why not. */
export const formatWhere = ({ unitId, left, joined }: Soldier, units: readonly Unit[], today: string): string => {
  if (unitId) return fullUnitName(units, unitId)
  if (left) return `${LEFT_WORDS[left.kind]} ${formatDay(left.on, today)}`
  return `joins ${formatDay(joined, today)}`
}

/** "SSG Marsh belongs to 2nd Platoon, A Company." In: the soldier, the units, today and the time zone it is today in. */
export const formatPerson = (soldier: SoldierDetail, units: readonly Unit[], today: string, zone: string): string => {
  const { unitId, left, joined, removedAt, givenName } = soldier
  if (removedAt)
    return `${givenName}: name and number were removed on ${formatDayInFull(dayInZone(removedAt, zone), today)}, figures and days stay.`
  if (unitId) return `${shortName(soldier)} belongs to ${fullUnitName(units, unitId)}.`
  if (left)
    return `${shortName(soldier)} ${left.kind === 'other' ? 'left' : `was ${LEFT_WORDS[left.kind]}`} on ${formatDayInFull(left.on, today)}.`
  return `${shortName(soldier)} joins on ${formatDayInFull(joined, today)}.`
}

/** A change as it was entered: "grade SSG, arms saber and rifle". */
export const formatChange = ({ grade, arms, unitId, left }: SoldierChange, units: readonly Unit[]): string =>
  [
    left && (left === 'other' ? 'left the strength' : LEFT_WORDS[left]),
    unitId && `to ${fullUnitName(units, unitId)}`,
    grade && `grade ${grade}`,
    arms && (arms.length === 0 ? 'no arms' : `arms ${arms.join(', ')}`),
  ]
    .filter(Boolean)
    .join(', ')

/** From when to when, for lists. */
export const formatDays = (from: string, through: string | null, today: string): string =>
  through === null
    ? `from ${formatDay(from, today)}`
    : from === through
      ? formatDay(from, today)
      : `${formatDay(from, today)} to ${formatDay(through, today)}`

/** Whether an absence is now, is to come, or is over. */
export const formatAbsenceState = ({ from, through }: Absence, today: string): string =>
  from > today ? 'to come' : through !== null && through < today ? 'over' : 'now'
