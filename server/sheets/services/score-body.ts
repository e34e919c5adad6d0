import type { SheetBody } from '../../contract/sheets/sheets.ts'
import type { Catalogue, StandardVersion } from '../../db/catalogue.db.ts'
import { toMillis } from '../../domain/calendar/to-millis.ts'
import { findMalformed } from '../../domain/scoring/find-malformed.ts'
import { scoreSheet } from '../../domain/scoring/score-sheet.ts'
import type { ClosedScore, SheetScore } from '../../domain/scoring/types.ts'
import { AppError, type ErrorItem, invalid } from '../../errors.ts'
import { scoredStandard } from './scored-standard.ts'

export interface ScoredBody {
  readonly version: StandardVersion
  readonly score: SheetScore
}

/** Scores a body by the version it names. Throws an AppError for an unknown version and for a malformed sheet. */
export function scoreBody(catalogue: Catalogue, body: SheetBody): ScoredBody {
  const versions = catalogue.standards.get(body.standard)
  if (!versions) throw invalid('unknown-standard', '/standard', `There is no standard "${body.standard}".`)
  const version = versions.find((one) => one.version === body.standardVersion)
  if (!version) {
    const detail = `"${body.standard}" has no version ${body.standardVersion}.`
    throw invalid('unknown-standard-version', '/standardVersion', detail)
  }
  const standard = scoredStandard(version)
  const malformed = [...timesMalformed(body), ...findMalformed(standard, body)]
  if (malformed[0]) {
    const more = malformed.length > 1 ? ` and ${malformed.length - 1} more` : ''
    throw new AppError('invalid', malformed[0].rule, `The sheet is malformed: ${malformed[0].detail}${more}`, malformed)
  }
  return { version, score: scoreSheet(standard, body) }
}

function timesMalformed({ startedAt, finishedAt }: SheetBody): ErrorItem[] {
  if (toMillis(startedAt) <= toMillis(finishedAt)) return []
  const detail = 'The test is finished before it is started: mend either time.'
  return [{ pointer: '/finishedAt', rule: 'finished-before-started', detail }]
}

/** Refuses a sheet that is not finished: it cannot be closed. */
export function closedScore(score: SheetScore): ClosedScore {
  if (score.ending !== 'unfinished') return score
  const { open } = score
  throw invalid(
    'unfinished',
    '/minors',
    `The test is not finished: ${open} minor measures are undecided or a major is not marked. Mark them, or end the test by a major NO-GO or a void.`,
  )
}
