import type { SheetBody } from '../../../server/contract/sheets/sheets.ts'
import type { StandardBody } from '../../../server/contract/standards/standards.ts'
import { runningScore } from '../../../server/domain/scoring/score-sheet.ts'
import type { ScoredStandard } from '../../../server/domain/scoring/types.ts'
import type { Random } from '../random.ts'
import { cutShort } from './cut-short.ts'

type VoidReason = NonNullable<SheetBody['void']>

/** How a test goes to its end, or does not. */
export type Course =
  | { readonly kind: 'completed' }
  | { readonly kind: 'stopped'; readonly major: string; readonly fault: string; readonly calls: number }
  | { readonly kind: 'void'; readonly reason: VoidReason; readonly calls: number }

/** What is on a sheet of how a test went. */
export type CourseMarks = Pick<SheetBody, 'majors' | 'minors' | 'void'>

const UNIFORM_REFUSED = 0.015
const COMPOSURE_LOST = 0.03
const MADE_VOID = 0.012

const VOID_REASONS: readonly VoidReason[] = [
  { kind: 'interrupted', text: 'Detail called away for an arrival.' },
  { kind: 'interrupted', text: 'Fire alarm in the drill hall.' },
  { kind: 'injury', text: 'Candidate faint from the heat; seen by the medic.' },
  { kind: 'equipment', text: 'Sling broke; no other at hand.' },
  { kind: 'other', text: 'Grader taken ill.' },
]

/** How one test goes; in a storm it is void. */
export function drawCourse(random: Random, standard: StandardBody, isStorm: boolean): Course {
  const inTheMiddle = () => random.integer(3, standard.calls.length - 1)
  if (isStorm) return { kind: 'void', reason: { kind: 'weather', text: 'Thunderstorm.' }, calls: inTheMiddle() }
  if (random.chance(MADE_VOID)) return { kind: 'void', reason: random.pick(VOID_REASONS), calls: inTheMiddle() }
  const stopped = (major: string, calls: number): Course => {
    const { faults } = standard.majors.find(({ code }) => code === major)!
    return { kind: 'stopped', major, fault: random.pick(faults).code, calls }
  }
  if (random.chance(UNIFORM_REFUSED)) return stopped('uniform', 0)
  if (random.chance(COMPOSURE_LOST)) return stopped('composure', inTheMiddle())
  return { kind: 'completed' }
}

/** The marks of a test that went so, from those of a test carried out to its end. */
export function marksOf(standard: StandardBody, course: Course, minors: SheetBody['minors']): CourseMarks {
  const go = (code: string) => ({ code, mark: 'GO' as const, faults: [], note: null })
  if (course.kind === 'completed') return { majors: standard.majors.map(({ code }) => go(code)), minors, void: null }
  if (course.kind === 'stopped') {
    const { major, fault, calls } = course
    const noGo = { code: major, mark: 'NO-GO' as const, atCall: calls, faults: [fault], note: null }
    const before = major === 'uniform' ? [] : [go('uniform')]
    return { majors: [...before, noGo], minors: cutShort(standard, minors, calls), void: null }
  }
  return { majors: [go('uniform')], minors: cutInReach(standard, minors, course.calls), void: course.reason }
}

/** Cut where the minimum is still within reach: a test that is lost already is not made void. */
function cutInReach(standard: StandardBody, minors: SheetBody['minors'], calls: number): SheetBody['minors'] {
  const cut = cutShort(standard, minors, calls)
  const { reachable } = runningScore(toScored(standard), { majors: [], minors: cut })
  return reachable ? cut : cutInReach(standard, minors, Math.floor(calls / 2))
}

/** A standard as scoring takes it. */
export const toScored = (standard: StandardBody): ScoredStandard => ({
  ...standard,
  rule: { ...standard.rule, percent: String(standard.rule.percent) },
})
