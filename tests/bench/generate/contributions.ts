import type { SheetAssessment } from '../../../server/domain/assessment/types.ts'
import type { Contribution } from '../../../server/domain/tallies/contribution.ts'
import { sheetCounts } from '../../../server/domain/tallies/sheet-counts.ts'
import type { TallyLayout } from '../../../server/domain/tallies/tally-layout.ts'
import type { JudgedCareer, ScoredSheet } from './judge-career.ts'

/** What one sheet of a version adds to the tallies; null where it is no counted attempt. */
export function contributionOf(
  versionId: string,
  layout: TallyLayout,
  { fields, score, body }: ScoredSheet,
  { kind, unitId }: SheetAssessment,
): Contribution | null {
  if (kind === null || score.ending === 'void') return null
  return {
    versionId,
    unitId,
    day: fields.day,
    arm: fields.arm,
    kind,
    sponsorId: fields.sponsorId,
    graderId: fields.graderId,
    passed: score.outcome === 'GO',
    ending: score.ending,
    counts: sheetCounts(layout, score, body),
  }
}

export function contributionsOf(
  versionId: string,
  layout: TallyLayout,
  { sheets, assessment }: JudgedCareer,
): Contribution[] {
  const written = new Map(sheets.map((sheet) => [sheet.id, sheet]))
  return assessment.sheets.flatMap((sheet) => contributionOf(versionId, layout, written.get(sheet.id)!, sheet) ?? [])
}
