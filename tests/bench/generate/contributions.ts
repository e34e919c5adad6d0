import type { SheetAssessment } from '../../../server/domain/assessment/types.ts'
import { type Contribution, countsOf } from '../../../server/domain/tallies/contribution.ts'
import type { JudgedCareer, ScoredSheet } from './judge-career.ts'

/** What one sheet adds to the tallies; null where it is no counted attempt. */
export function contributionOf(sheet: ScoredSheet, { kind, unitId }: SheetAssessment): Contribution | null {
  if (kind === null) return null
  const { standardId, day, arm, sponsorId, outcome } = sheet.fields
  const counts = countsOf(sheet.score, sheet.body.majors)
  return { standardId, unitId, day, arm, kind, sponsorId, passed: outcome === 'GO', ...counts }
}

export function contributionsOf({ sheets, assessment }: JudgedCareer): Contribution[] {
  const written = new Map(sheets.map((sheet) => [sheet.id, sheet]))
  return assessment.sheets.flatMap((sheet) => contributionOf(written.get(sheet.id)!, sheet) ?? [])
}
