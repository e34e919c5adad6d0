import type { SheetFields } from '../../assessment/db/new-sheets.db.ts'
import type { SheetBody } from '../../contract/sheets/sheets.ts'
import type { StandardVersion } from '../../db/catalogue.db.ts'
import { toMillis } from '../../domain/calendar/to-millis.ts'
import { runningScore } from '../../domain/scoring/score-sheet.ts'
import type { ClosedScore } from '../../domain/scoring/types.ts'
import { markPattern } from '../../domain/tallies/mark-pattern.ts'
import { scoredStandard } from './scored-standard.ts'

/** What the record keeps of a sheet beside its body: the facts that rules and dashboards ask about. */
export function sheetFields(
  id: string,
  body: SheetBody,
  version: StandardVersion,
  score: ClosedScore,
  day: string,
): Omit<SheetFields, 'state' | 'clockSkewMs'> {
  const { candidateId, sponsorId, graderId, purpose, arm, secondOf, testDayId } = body
  const { uniform, equipment, sponsorPresent } = body.conditions
  return {
    id,
    candidateId,
    sponsorId,
    graderId,
    standardId: version.standardId,
    standardVersionId: version.id,
    purpose,
    arm,
    secondOf,
    testDayId,
    startedAt: toInstant(body.startedAt),
    finishedAt: toInstant(body.finishedAt),
    day,
    ending: score.ending,
    outcome: score.outcome,
    marks: markPattern(version.definition, score, body.majors),
    conditionsMet: uniform && equipment && sponsorPresent,
    voidAfterFailure: score.ending === 'void' && !runningScore(scoredStandard(version), body).reachable,
  }
}

/** An instant as PostgreSQL takes it: RFC 3339 allows offsets, fractions and leap seconds that it does not. */
export const toInstant = (written: string): string => new Date(toMillis(written)).toISOString()
