import type { StandardBody } from '../../server/contract/standards/standards.ts'
import { addDays } from '../../server/domain/calendar/plain-date.ts'
import type { PlannedSoldier } from './people.ts'
import type { PlannedEvent } from './plan.ts'
import { morningOf, type Program } from './program/program.ts'
import type { Random } from './random.ts'

const ENTERED_TWICE_DAYS_BEFORE = 40
const DRAFTED_DAYS_BEFORE = 6
const DRAFT_IN_DAYS = 45

/**
 * What keeps the office busy beside tests: a soldier who was entered a second time on coming back from another post, and
 * the draft of a changed standard that is not decided about yet.
 */
export function officeEntries(program: Program, soldiers: readonly PlannedSoldier[], random: Random): PlannedEvent[] {
  const serving = soldiers.filter(
    ({ duty, from, changes }) =>
      duty === 'in the ranks' &&
      from < addDays(program.today, -ENTERED_TWICE_DAYS_BEFORE) &&
      changes.every(({ left }) => left === undefined),
  )
  return [...secondEntry(program, random.pick(serving), random), draftOf(program)]
}

/** The same name under another number, with an award of another post that the first entry knows nothing of. */
function secondEntry(program: Program, soldier: PlannedSoldier, random: Random): PlannedEvent[] {
  const { familyName, givenName, grade, arms, unitKey } = soldier
  const on = addDays(program.today, -ENTERED_TWICE_DAYS_BEFORE)
  const rosterNumber = `${soldier.rosterNumber.slice(0, -1)}X`
  const at = morningOf(program, on)
  const awardedOn = addDays(on, -random.integer(100, 200))
  const award = {
    certification: 'rifle',
    awardedOn,
    validThrough: addDays(awardedOn, 365),
    evidence: 'Paper certificate of the former post',
  }
  return [
    { kind: 'soldier', at, body: { rosterNumber, familyName, givenName, grade, arms, unitId: unitKey, from: on } },
    { kind: 'award', at, soldier: rosterNumber, body: award },
  ]
}

/** The rifle manual with more asked of it, to be weighed by the office. */
function draftOf(program: Program): PlannedEvent {
  const latest = program.standards.filter(({ code }) => code === 'rifle-standing').at(-1)!
  const body: StandardBody = {
    ...latest,
    version: latest.version + 1,
    rule: { ...latest.rule, percent: '85' },
    conditions: [...latest.conditions, 'Bayonet scabbards are not worn'],
    effectiveFrom: addDays(program.today, DRAFT_IN_DAYS),
    equivalentToPrevious: false,
  }
  return { kind: 'draft', at: morningOf(program, addDays(program.today, -DRAFTED_DAYS_BEFORE)), body }
}
