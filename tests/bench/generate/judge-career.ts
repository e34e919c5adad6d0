import type { SheetFields } from '../../../server/assessment/db/new-sheets.db.ts'
import type { Catalogue } from '../../../server/db/catalogue.db.ts'
import { assessSoldier } from '../../../server/domain/assessment/assess-soldier.ts'
import type {
  AssessedSheet,
  Dossier,
  Qualification,
  SoldierAssessment,
} from '../../../server/domain/assessment/types.ts'
import { dayInZone } from '../../../server/domain/calendar/day-in-zone.ts'
import type { ClosedScore } from '../../../server/domain/scoring/types.ts'
import { closedScore, scoreBody } from '../../../server/sheets/services/score-body.ts'
import { sheetFields } from '../../../server/sheets/services/sheet-fields.ts'
import type { BenchSoldier } from './establishment.ts'
import type { Career } from './write-career.ts'
import type { WrittenSheet } from './write-sheet.ts'

export const ZONE = 'America/New_York'

/** A sheet with its score and the facts the record keeps of it. */
export interface ScoredSheet extends WrittenSheet {
  readonly score: ClosedScore
  readonly fields: Omit<SheetFields, 'state' | 'clockSkewMs'>
}

export interface JudgedCareer {
  readonly sheets: readonly ScoredSheet[]
  readonly assessment: SoldierAssessment
}

/** Scores a sheet as the product does when it arrives. */
export function scoreWritten(catalogue: Catalogue, sheet: WrittenSheet): ScoredSheet {
  const { version, score } = scoreBody(catalogue, sheet.body)
  const closed = closedScore(score)
  const day = dayInZone(sheet.body.finishedAt, ZONE)
  return { ...sheet, score: closed, fields: sheetFields(sheet.id, sheet.body, version, closed, day) }
}

/** Judges all sheets of a soldier at once, which comes to the same as judging them one by one in order. */
export function judgeCareer(
  catalogue: Catalogue,
  soldier: BenchSoldier,
  career: Career,
  people: ReadonlyMap<string, Qualification>,
): JudgedCareer {
  const sheets = career.sheets.map((sheet) => scoreWritten(catalogue, sheet))
  const dossier: Dossier = {
    sheets: sheets.map(toAssessed),
    periods: soldier.periods,
    sponsorships: soldier.sponsorships,
    reviews: career.reviews,
    awards: new Map(),
    withdrawals: new Map(),
    suspensions: new Map(),
  }
  return { sheets, assessment: assessSoldier(catalogue.judging, dossier, people) }
}

/** A sheet that has just arrived, as the judgement takes it. */
export function toAssessed({ id, body, fields, receivedAt }: ScoredSheet): AssessedSheet {
  return {
    ...fields,
    id,
    standard: body.standard,
    version: body.standardVersion,
    startedAt: Date.parse(body.startedAt),
    finishedAt: Date.parse(body.finishedAt),
    outcome: fields.outcome as AssessedSheet['outcome'],
    outcomeOnly: fields.ending === 'recorded',
    isVoid: fields.ending === 'void',
    isSecond: fields.secondOf !== null,
    storedAt: Date.parse(receivedAt),
    clockSkewMs: null,
    state: 'new',
    violations: [],
    waived: [],
    tolerated: [],
  }
}

/** What the awards that the soldier earned make them able to grade and to sponsor. */
export function qualificationBy({ certifications }: SoldierAssessment): Qualification {
  const awards = certifications.flatMap(({ certification, earned }) =>
    earned.map(({ sheetId, finishedAt, awardedOn, validThrough }) => ({
      certification,
      awardedOn,
      validThrough,
      madeBy: { id: sheetId, finishedAt },
      entry: 0,
    })),
  )
  return { awards, suspensions: [], appointments: [] }
}
