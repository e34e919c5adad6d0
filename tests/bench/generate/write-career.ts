import type { Random } from '../../../seed/generate/random.ts'
import { addDays, daysBetween, type PlainDate, toEpochDay } from '../../../server/domain/calendar/plain-date.ts'
import type { BenchSoldier } from './establishment.ts'
import { type TestGround, type WrittenSheet, writeSecond, writeSheet } from './write-sheet.ts'

export interface Career {
  readonly sheets: readonly WrittenSheet[]
  readonly reviews: readonly { readonly standard: string; readonly on: PlainDate }[]
}

const PRACTICE = 0.15
const SECOND_GRADER = 0.02
const REVIEWED = 0.9
const REVIEW_AFTER = 3

/** So many sheets of a soldier, spread over the days from `from` to `to`: tests on test days, and practice between them. */
export function writeCareer(
  random: Random,
  ground: TestGround,
  soldier: BenchSoldier,
  { from, to, count }: { from: PlainDate; to: PlainDate; count: number },
): Career {
  const sheets: WrittenSheet[] = []
  const reviews: { standard: string; on: PlainDate }[] = []
  let day = from
  let noGos = 0
  while (sheets.length < count) {
    const gap = (daysBetween(day, to) / (count - sheets.length)) * (0.5 + random.next())
    day = minimum(addDays(day, Math.max(1, Math.round(gap))), to)
    const purpose = random.chance(PRACTICE) ? 'practice' : 'test'
    if (purpose === 'test') day = minimum(testDayFrom(day, soldier.battalion), to)
    const sheet = writeSheet(random, ground, soldier, day, purpose)
    sheets.push(sheet)
    if (purpose === 'practice') continue
    if (sheets.length < count && random.chance(SECOND_GRADER) && sheet.body.outcomeOnly === null && !sheet.body.void) {
      sheets.push(writeSecond(random, ground, soldier, sheet))
    }
    noGos = looksFailed(sheet) ? noGos + 1 : 0
    if (noGos >= REVIEW_AFTER && random.chance(REVIEWED)) {
      reviews.push({ standard: ground.standard.code, on: minimum(addDays(day, 3), to) })
    }
  }
  return { sheets, reviews }
}

/** Each battalion tests once a week. */
export function testDayFrom(day: PlainDate, battalion: number): PlainDate {
  return addDays(day, (((battalion + 5 - toEpochDay(day)) % 7) + 7) % 7)
}

/** Nearly as the score has it; the office calls for a review by the look of the sheets. */
function looksFailed({ body }: WrittenSheet): boolean {
  if (body.outcomeOnly !== null) return body.outcomeOnly === 'NO-GO'
  if (body.majors.some(({ mark }) => mark === 'NO-GO')) return true
  const failed = body.minors.filter(({ trials }) => trials.filter((mark) => mark === 'incorrect').length > 1)
  return failed.length > 2
}

const minimum = (a: PlainDate, b: PlainDate): PlainDate => (a < b ? a : b)
