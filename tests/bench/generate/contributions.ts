import type { StandardVersion } from '../../../server/db/catalogue.db.ts'
import type { SheetAssessment } from '../../../server/domain/assessment/types.ts'
import { attemptClass } from '../../../server/domain/tallies/attempt-class.ts'
import type { Contribution } from '../../../server/domain/tallies/contribution.ts'
import { sheetCounts } from '../../../server/domain/tallies/sheet-counts.ts'
import { tallyLayout } from '../../../server/domain/tallies/tally-layout.ts'
import type { JudgedCareer, ScoredSheet } from './judge-career.ts'

/** What one sheet of a version adds to the tallies; null where it is no counted attempt. */
export function contributionOf(
  version: StandardVersion,
  { fields, score, body }: ScoredSheet,
  { kind, unitId, attempts }: SheetAssessment,
): Contribution | null {
  if (kind === null || score.ending === 'void') return null
  return {
    versionId: version.id,
    unitId,
    day: fields.day,
    arm: fields.arm,
    number: attemptClass(kind, attempts),
    sponsorId: fields.sponsorId,
    graderId: fields.graderId,
    passed: score.outcome === 'GO',
    ending: score.ending,
    counts: sheetCounts(tallyLayout(version.definition), score, body),
  }
}

export function contributionsOf(version: StandardVersion, { sheets, assessment }: JudgedCareer): Contribution[] {
  const written = new Map(sheets.map((sheet) => [sheet.id, sheet]))
  return assessment.sheets.flatMap((sheet) => contributionOf(version, written.get(sheet.id)!, sheet) ?? [])
}
