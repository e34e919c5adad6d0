import type { Violation } from '../validity/rules.ts'
import type { AssessedSheet, SheetAssessment } from './types.ts'

type Judgement = Pick<SheetAssessment, 'state' | 'violations' | 'tolerated'>

/**
 * What becomes of a sheet given the conditions it breaks now. A new or held sheet counts when every broken condition was
 * waived, or was tolerated already when the same content was in force before; a counted one is never undone, what turns up later is tolerated and
 * flagged; a rejected one stays as it is.
 */
export function judgement(sheet: AssessedSheet, broken: readonly Violation[]): Judgement {
  if (sheet.state === 'rejected') {
    return { state: 'rejected', violations: broken, tolerated: sheet.tolerated }
  }
  const notWaived = broken.map(({ rule }) => rule).filter((rule) => !sheet.waived.includes(rule))
  const holds = sheet.state !== 'counted' && notWaived.some((rule) => !sheet.tolerated.includes(rule))
  return holds
    ? { state: 'held', violations: broken, tolerated: sheet.tolerated }
    : { state: 'counted', violations: broken, tolerated: notWaived }
}
