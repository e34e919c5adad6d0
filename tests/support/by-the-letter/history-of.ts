import type { Attempt, Certification, History } from '../../../server/domain/certification/types.ts'
import type { Facts, SheetFact } from './read-facts.ts'

/** Whether a comes before b in order. */
export const isBefore = (a: SheetFact, b: SheetFact): boolean =>
  a.finishedAt < b.finishedAt || (a.finishedAt === b.finishedAt && a.id < b.id)

/** Counted, not void, by the first grader, in a test. */
export const isAttempt = ({ body, score, state }: SheetFact): boolean =>
  state === 'counted' && score.outcome !== 'VOID' && body.purpose === 'test' && body.secondOf === null

/** What there is to know of a soldier in a certification; before a sheet: only what lies before it in order. */
export function historyOf(facts: Facts, soldierId: string, { code }: Certification, before?: SheetFact): History {
  const soldier = facts.soldiers.get(soldierId)!
  const ofCertification = (one: { certification: string }) => one.certification === code
  return {
    attempts: facts.sheets
      .filter((sheet) => sheet.body.candidateId === soldierId && isAttempt(sheet))
      .filter((sheet) => before === undefined || isBefore(sheet, before))
      .map(toAttempt),
    awards: soldier.awards
      .filter(ofCertification)
      .filter(({ awardedOn }) => before === undefined || awardedOn < before.day),
    withdrawals: soldier.withdrawals
      .filter(ofCertification)
      .map(({ on }) => on)
      .filter((on) => before === undefined || on < before.day),
    suspensions: soldier.suspensions.filter(ofCertification),
    reviews: soldier.reviews,
    decisions: soldier.decisions.filter(ofCertification),
    extensions: soldier.extensions.filter(ofCertification),
  }
}

function toAttempt({ id, body, score, finishedAt, day }: SheetFact): Attempt {
  const { standard, standardVersion: version, arm } = body
  return { id, standard, version, arm, finishedAt, day, outcome: score.outcome as 'GO' | 'NO-GO' }
}
