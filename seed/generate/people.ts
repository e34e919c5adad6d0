import { addMonths } from '../../server/domain/calendar/add-months.ts'
import { addDays, fromEpochDay, type PlainDate, toEpochDay } from '../../server/domain/calendar/plain-date.ts'
import { type Career, type ServiceRecord, toServiceRecord } from './career.ts'
import { BILLETS, type Billet, companyOf, type Duty, type Grade, type PlannedUnit, UNITS } from './establishment.ts'
import { joinedBefore, leaderCareers, leaving, type RecordSpan } from './leader-careers.ts'
import { createNames } from './names.ts'
import { pastSteps } from './past-steps.ts'
import type { Random } from './random.ts'

/** A soldier as `POST /api/soldiers` takes one, then the changes; units by key. `duty` is for the loader, not the API. */
export interface PlannedSoldier extends ServiceRecord {
  rosterNumber: string
  familyName: string
  givenName: string
  duty: Duty
}

const MONTHS = 24
/** How many of a grade came after the record opened, and within how many days before today. Invented shares. */
const CAME_LATER: Partial<Record<Grade, readonly [share: number, days: number]>> = {
  PVT: [1, 300],
  PFC: [0.65, 600],
  SPC: [0.35, 700],
  CPT: [0.4, 700],
}
const CAME_LATER_OTHERS = [0.2, 700] as const
const HAD_PREDECESSOR = 0.75
const VACANT = 0.02
const LED_SEPARATELY: readonly Duty[] = ['platoon leader', 'platoon sergeant', 'executive officer', 'first sergeant']

const isDate = (text: string): boolean => {
  const day = toEpochDay(text)
  return Number.isFinite(day) && fromEpochDay(day) === text
}

/** Somebody who held a billet and left on a day, having joined half a year to two and a half years before. */
function leaver(random: Random, billet: Billet, left: PlainDate, { opening }: RecordSpan): Career {
  const joined = addDays(left, -random.integer(180, 900))
  const steps = pastSteps(random, billet, { joined, opening, through: left })
  return { duty: billet.duty, steps: [...steps, { from: left, left: leaving(random) }] }
}

/** Who holds a billet today, and who held it before; a vacant one was left in the last half year. */
function billetCareers(random: Random, billet: Billet, span: RecordSpan): Career[] {
  const { opening, today } = span
  if (billet.duty === 'in the ranks' && random.chance(VACANT)) {
    return [leaver(random, billet, addDays(today, -random.integer(5, 180)), span)]
  }
  const [share, days] = CAME_LATER[billet.grade] ?? CAME_LATER_OTHERS
  const later = random.chance(share)
  const joined = later ? addDays(today, -random.integer(8, days)) : joinedBefore(random, opening)
  const holder = { duty: billet.duty, steps: pastSteps(random, billet, { joined, opening, through: today }) }
  const gone = addDays(joined, -random.integer(0, 40))
  return later && gone > opening && random.chance(HAD_PREDECESSOR)
    ? [holder, leaver(random, billet, gone, span)]
    : [holder]
}

/**
 * The people of the demo unit: an invented ceremonial battalion, about 360 in strength today and some 110 who left.
 * In: a stream of random numbers and the day the data is loaded; the same of both gives the same people.
 * Out: the units, parents first; the soldiers in order of roster number, which is the order of joining. Moves,
 * promotions, leaves and returns lie in the 24 months up to today; who was there at their beginning had joined earlier.
 * Throws a RangeError when `today` is no date.
 */
export function generateUnit({ random, today }: { random: Random; today: PlainDate }): {
  units: readonly PlannedUnit[]
  soldiers: PlannedSoldier[]
} {
  if (!isDate(today)) throw new RangeError(`Today must be a date YYYY-MM-DD, not ${today}.`)
  const span = { opening: addMonths(today, -MONTHS), today }
  const companies = UNITS.filter((unit) => unit.kind === 'company').map((unit) => unit.key)
  const isLedSeparately = (billet: Billet) => companyOf(billet.unitKey) !== null && LED_SEPARATELY.includes(billet.duty)
  const careers = [
    ...companies.flatMap((company) =>
      leaderCareers(
        random,
        company,
        BILLETS.filter((billet) => companyOf(billet.unitKey) === company),
        span,
      ),
    ),
    ...BILLETS.filter((billet) => !isLedSeparately(billet)).flatMap((billet) => billetCareers(random, billet, span)),
  ]
  const nextName = createNames(random)
  let number = 1000
  const soldiers = careers
    .map(({ duty, steps }) => ({ duty, record: toServiceRecord(steps) }))
    .sort((one, other) => (one.record.from < other.record.from ? -1 : one.record.from > other.record.from ? 1 : 0))
    .map(({ duty, record }): PlannedSoldier => {
      number += random.integer(1, 3)
      return { rosterNumber: `CP-${number}`, ...nextName(), ...record, duty }
    })
  return { units: UNITS, soldiers }
}
