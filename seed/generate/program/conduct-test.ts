import type { SheetBody } from '../../../server/contract/sheets/sheets.ts'
import type { StandardBody } from '../../../server/contract/standards/standards.ts'
import type { PlainDate } from '../../../server/domain/calendar/plain-date.ts'
import { scoreSheet } from '../../../server/domain/scoring/score-sheet.ts'
import { withoutDecided } from '../marks/cut-short.ts'
import { observe } from '../marks/observe.ts'
import { type Performance, perform } from '../marks/perform.ts'
import { drawCourse, marksOf, toScored } from '../marks/test-course.ts'
import { chances } from './chances.ts'
import { createSheet } from './create-sheet.ts'
import { type Program, versionOn } from './program.ts'
import type { Seat } from './seats.ts'

/** A test that was carried out: what really happened, and the sheet of it, all in order. */
export interface ConductedTest {
  readonly standard: StandardBody
  readonly performance: Performance
  readonly body: SheetBody
  readonly ending: 'completed' | 'stopped' | 'void' | 'void after failure'
  readonly outcome: 'GO' | 'NO-GO' | 'VOID'
  readonly failed: readonly string[]
}

/** How often time is short, so that third trials of decided measures are left out. */
const SHORT_OF_TIME = 0.08
/** How often a lost test is made void at its end, which it must not be. */
const VOID_ONCE_LOST = 0.008

/** Carries out one test. In: whether a storm breaks in, and when the candidate's test before it that day was over. */
export function conductTest(
  program: Program,
  day: PlainDate,
  seat: Seat,
  around: { isStorm: boolean; afterInstant: number | null },
): ConductedTest {
  const { random } = program
  const { training, sponsor, grader } = seat
  const standard = versionOn(program, seat.standard, day)
  const chanceOf = chances(program, training, seat.standard, sponsor, day)
  const performance = perform(random, standard, chanceOf, training.habits.get(seat.standard)!)
  const course = drawCourse(random, standard, around.isStorm)
  const seen = observe(random, standard, performance, grader.eye!)
  const minors = course.kind === 'completed' && random.chance(SHORT_OF_TIME) ? withoutDecided(standard, seen) : seen
  const marks = marksOf(standard, course, minors)
  const calls = course.kind === 'completed' ? standard.calls.length : course.calls
  const body = createSheet(program, day, seat, standard, marks, { ...around, share: calls / standard.calls.length })
  const score = scoreSheet(toScored(standard), body)
  if (score.ending === 'unfinished') throw new Error(`A made-up test of ${standard.code} has no end.`)
  const failed = score.minors.filter(({ outcome }) => outcome === 'NO-GO').map(({ code }) => code)
  const test = { standard, performance, body, ending: course.kind, outcome: score.outcome, failed }
  const isLost = course.kind === 'completed' && score.outcome === 'NO-GO'
  if (!isLost || !random.chance(VOID_ONCE_LOST)) return test
  const lost = { ...body, void: { kind: 'interrupted' as const, text: 'Lightning near the field.' } }
  return { ...test, body: lost, ending: 'void after failure', outcome: 'VOID' }
}
