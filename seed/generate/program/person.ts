import type { StandardBody } from '../../../server/contract/standards/standards.ts'
import { addDays, type PlainDate } from '../../../server/domain/calendar/plain-date.ts'
import { type SoldierPeriod, soldierPeriods } from '../../../server/domain/people/soldier-periods.ts'
import { companyOf, type Duty } from '../establishment.ts'
import type { Eye } from '../marks/observe.ts'
import type { PlannedSoldier } from '../people.ts'
import type { Random } from '../random.ts'

/** A time in which somebody sponsors a candidate; `to` null: to this day. */
export interface Coaching {
  readonly sponsor: Person
  readonly from: PlainDate
  to: PlainDate | null
}

/** A soldier with what decides how their tests go: talent, and how they coach and grade others. */
export interface Person {
  /** Roster number. */
  readonly key: string
  readonly duty: Duty
  /** Units by key. */
  readonly periods: readonly SoldierPeriod[]
  /** In log-odds of a right trial, around 0. */
  readonly talent: number
  readonly coach: {
    /** In log-odds of a right trial of their candidates, around 0. */
    readonly quality: number
    /** Candidates at a time. */
    readonly places: number
    /** By standard, the measure they themselves never learned well. */
    readonly blindSpots: ReadonlyMap<string, string>
  }
  /** Null: never grades. */
  readonly eye: Eye | null
  /** Who coached them, in order. */
  readonly coachings: Coaching[]
}

/** Share of those in a duty who grade. */
const GRADES: Partial<Record<Duty, number>> = {
  'training officer': 1,
  'training sergeant': 1,
  'first sergeant': 0.7,
  'platoon sergeant': 0.4,
  'squad leader': 0.12,
  'team leader': 0.08,
}
const SPONSORS = 0.3

/** Gives a planned soldier the traits that the record will show. */
export function createPerson(random: Random, soldier: PlannedSoldier, standards: readonly StandardBody[]): Person {
  const { rosterNumber, duty, from, grade, arms, unitKey, changes } = soldier
  const joining = { from, grade, arms, unitId: unitKey, left: null, entry: 0 }
  const later = changes.map((change, index) => ({
    from: change.from,
    grade: change.grade ?? null,
    arms: change.arms ?? null,
    unitId: change.unitKey ?? null,
    left: change.left ?? null,
    entry: index + 1,
  }))
  const grades = random.chance(GRADES[duty] ?? 0)
  const sponsors = !grades && random.chance(SPONSORS)
  return {
    key: rosterNumber,
    duty,
    periods: soldierPeriods([joining, ...later]),
    talent: random.normal(0, 0.55),
    coach: {
      quality: random.normal(0, 0.45),
      places: sponsors ? random.pick([1, 2, 3, 3, 4, 5]) : 0,
      blindSpots: new Map(standards.map(({ code, minors }) => [code, random.pick(minors).code])),
    },
    eye: grades
      ? { overlooks: random.pick([0.02, 0.04, 0.04, 0.12]), imagines: random.pick([0, 0.01, 0.01, 0.04]) }
      : null,
    coachings: [],
  }
}

/** Where a person is in the strength on a day; null outside it. */
export const placeOn = (person: Person, day: PlainDate): SoldierPeriod | null =>
  person.periods.find(({ from, through }) => from <= day && (through === null || day <= through)) ?? null

/** How much longer than others a company takes to get its people ready and to renew in time. */
export function companyPace(person: Person, day: PlainDate): number {
  const unitKey = placeOn(person, day)?.unitId
  const company = unitKey === undefined ? null : companyOf(unitKey)
  return company === 'a' ? 0.85 : company === 'c' ? 1.3 : 1
}

/** Whether somebody has coached a candidate at any time up to a day. */
export const hasCoached = (coach: Person, candidate: Person, day: PlainDate): boolean =>
  candidate.coachings.some(({ sponsor, from }) => sponsor === coach && from <= day)

/** The sponsors of record of a candidate on a day. */
export const sponsorsOn = (candidate: Person, day: PlainDate): Person[] =>
  candidate.coachings.filter(({ from, to }) => from <= day && (to === null || day <= to)).map(({ sponsor }) => sponsor)

/** The last day of the time in the strength that a day belongs to; null: it goes on. */
export function inStrengthThrough(person: Person, day: PlainDate): PlainDate | null {
  let place = placeOn(person, day)
  while (place?.through) {
    const next = placeOn(person, addDays(place.through, 1))
    if (!next) return place.through
    place = next
  }
  return null
}
