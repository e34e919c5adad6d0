import type { Attempt } from '../certification/types.ts'
import type { AssessedSheet } from './types.ts'

/** Whether a sheet is an attempt, once it counts. */
export const isAttempt = (sheet: AssessedSheet): boolean =>
  sheet.purpose === 'test' && sheet.outcome !== 'VOID' && sheet.secondOf === null

/** The attempt that a sheet is. */
export function toAttempt(sheet: AssessedSheet): Attempt {
  const { id, standard, version, arm, finishedAt, day } = sheet
  return { id, standard, version, arm, finishedAt, day, outcome: sheet.outcome === 'GO' ? 'GO' : 'NO-GO' }
}
