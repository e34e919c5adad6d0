import type { SheetBody } from '../../../server/contract/sheets/sheets.ts'
import type { StandardBody } from '../../../server/contract/standards/standards.ts'
import type { PlainDate } from '../../../server/domain/calendar/plain-date.ts'
import { instantInZone, textInZone } from '../../../server/domain/calendar/zoned-instant.ts'
import type { CourseMarks } from '../marks/test-course.ts'
import type { Program } from './program.ts'
import type { Seat } from './seats.ts'

const MINUTE = 60_000
const PAUSED = 0.02
const ACKNOWLEDGED = 0.75
const NOTED = 0.06
const NOTES = [
  'Wind from the left all morning.',
  'Wet grass.',
  'Second time in front of this grader.',
  'Candidate came straight from guard duty.',
  'Good bearing throughout.',
  'Loud traffic; two commands repeated.',
]
/** How far two paper sheets of one morning overlap by their written times. */
const OVERLAP = 10 * MINUTE

/**
 * The sheet of a test that went by the rules.
 * In: how much of the test was called (0 to 1), and the end of a test of the candidate that this one overlaps, or null.
 */
export function createSheet(
  program: Program,
  day: PlainDate,
  { training, sponsor, grader, startsAt }: Seat,
  standard: StandardBody,
  marks: CourseMarks,
  { share, afterInstant }: { share: number; afterInstant: number | null },
): SheetBody {
  const { random, timeZone } = program
  const late = random.integer(0, 6) * MINUTE
  const start = afterInstant === null ? instantInZone(day, startsAt, timeZone) + late : afterInstant - OVERLAP
  const length = 3 + Math.round(random.integer(21, 30) * share)
  const pause = share === 1 && random.chance(PAUSED) ? random.integer(2, 6) : 0
  const finish = start + (length + pause) * MINUTE
  const at = (instant: number) => textInZone(instant, timeZone)
  const { code, arms } = training.certification
  const paused = start + 8 * MINUTE
  return {
    purpose: 'test',
    standard: standard.code,
    standardVersion: standard.version,
    arm: arms[0] ?? code,
    candidateId: training.person.key,
    sponsorId: sponsor.key,
    graderId: grader.key,
    testDayId: day,
    secondOf: null,
    startedAt: at(start),
    finishedAt: at(finish),
    conditions: { uniform: true, equipment: true, sponsorPresent: true },
    ...marks,
    pauses: pause
      ? [{ from: at(paused), to: at(paused + pause * MINUTE), note: 'Cease: people crossing the field.' }]
      : [],
    outcomeOnly: null,
    notes: random.chance(NOTED) ? random.pick(NOTES) : '',
    acknowledged: random.chance(ACKNOWLEDGED)
      ? [
          { soldierId: training.person.key, at: at(finish + 2 * MINUTE) },
          { soldierId: sponsor.key, at: at(finish + 3 * MINUTE) },
        ]
      : [],
  }
}
