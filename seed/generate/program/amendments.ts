import type { SheetBody } from '../../../server/contract/sheets/sheets.ts'
import type { StandardBody } from '../../../server/contract/standards/standards.ts'
import { dayInZone } from '../../../server/domain/calendar/day-in-zone.ts'
import { addDays } from '../../../server/domain/calendar/plain-date.ts'
import { scoreSheet } from '../../../server/domain/scoring/score-sheet.ts'
import { toScored } from '../marks/test-course.ts'
import { inOffice } from './arrivals.ts'
import { miswrite } from './miswrite.ts'
import type { Program } from './program.ts'

interface RightSheet {
  readonly id: string
  /** When it came in. */
  readonly at: number
  readonly right: SheetBody
}

const outcomeOf = (standard: StandardBody, body: SheetBody) => scoreSheet(toScored(standard), body).outcome

/**
 * Enters what mends a writing mistake, and its confirmation where it changes the outcome. Out: the sheet with the
 * mistake, or the right one where there is no time left to mend it.
 */
export function enterMiswritten(program: Program, standard: StandardBody, { id, at, right }: RightSheet): SheetBody {
  const { random, events } = program
  const { body, reason } = miswrite(random, right)
  const mendedAt = someDaysAfter(program, at)
  if (mendedAt === null) return right
  if (outcomeOf(standard, body) !== outcomeOf(standard, right)) {
    const confirmedAt = someDaysAfter(program, mendedAt)
    if (confirmedAt === null) return right
    const confirm = { decision: 'confirm', reason: 'Compared with the paper sheet.' } as const
    events.push({ kind: 'confirmation', at: confirmedAt, id, body: confirm })
  }
  events.push({ kind: 'amendment', at: mendedAt, id, body: { reason, sheet: right } })
  return body
}

/** A NO-GO by one trial is disputed: an amendment that would make it GO, and that nobody has confirmed. */
export function dispute(program: Program, standard: StandardBody, { id, at, right }: RightSheet): void {
  const proposedAt = someDaysAfter(program, at)
  if (proposedAt === null || outcomeOf(standard, right) !== 'NO-GO') return
  for (const minor of right.minors) {
    const trial = minor.trials.lastIndexOf('incorrect') + 1
    const trials = minor.trials.with(trial - 1, 'correct')
    const faults = minor.faults.filter((fault) => fault.trial !== trial)
    const minors = right.minors.map((one) => (one === minor ? { ...minor, trials, faults } : one))
    const sheet = { ...right, minors }
    if (trial === 0 || outcomeOf(standard, sheet) !== 'GO') continue
    program.undecided.delete('amendment')
    const reason = `Sponsor and candidate say that trial ${trial} of ${minor.code} was right; the grader is to be asked.`
    program.events.push({ kind: 'amendment', at: proposedAt, id, body: { reason, sheet } })
    return
  }
}

const someDaysAfter = (program: Program, at: number): number | null =>
  inOffice(program, addDays(dayInZone(at, program.timeZone), program.random.integer(1, 3)))
