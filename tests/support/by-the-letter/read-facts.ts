import type { SheetBody, Violation } from '../../../server/contract/sheets/sheets.ts'
import type {
  AwardDecision,
  Break,
  CarriedAward,
  Certification,
  Extension,
  Review,
  Suspension,
  Terms,
} from '../../../server/domain/certification/types.ts'
import type { SheetScore } from '../../../server/domain/scoring/types.ts'
import type { TestApp } from '../build-test-app.ts'

/** A sheet as stored: what it says in its revision in force, and what the product made of it. */
export interface SheetFact {
  readonly id: string
  readonly body: SheetBody
  readonly score: SheetScore
  readonly day: string
  /** Milliseconds since 1970, as are the next ones. */
  readonly finishedAt: number
  readonly startedAt: number
  readonly revisedAt: number
  readonly clockSkewMs: number | null
  readonly voidAfterFailure: boolean
  readonly state: 'counted' | 'held' | 'rejected'
  readonly violations: readonly Violation[]
  readonly waived: readonly string[]
  readonly tolerated: readonly string[]
  readonly overlaps: boolean
  readonly attempts: readonly { readonly certification: string; readonly number: number }[]
}

export interface SoldierFact {
  readonly changes: readonly {
    readonly from: string
    readonly grade: string | null
    readonly arms: readonly string[] | null
    readonly unitId: string | null
    readonly left: string | null
  }[]
  readonly sponsorships: readonly { readonly sponsorId: string; readonly from: string; readonly to: string | null }[]
  readonly appointments: readonly { readonly standard: string; readonly from: string; readonly to: string | null }[]
  readonly reviews: readonly Review[]
  readonly awards: readonly (CarriedAward & { readonly certification: string })[]
  readonly withdrawals: readonly { readonly certification: string; readonly on: string }[]
  readonly suspensions: readonly (Suspension & { readonly certification: string })[]
  /** Those not taken back, as are the extensions. */
  readonly decisions: readonly (AwardDecision & { readonly certification: string })[]
  readonly extensions: readonly (Extension & { readonly certification: string })[]
}

/** Of whom a certification is required by its terms from their day on; null: of any. */
type TermsFact = Terms & {
  readonly requiredGrades: readonly string[] | null
  readonly requiredUnits: readonly string[] | null
}

export type CertificationFact = Certification & { readonly terms: readonly TermsFact[] }

/** Everything that was entered, read past the product; nothing that follows from it but what stands in `sheets`. */
export interface Facts {
  readonly parents: ReadonlyMap<string, string | null>
  readonly soldiers: ReadonlyMap<string, SoldierFact>
  readonly sheets: readonly SheetFact[]
  readonly certifications: readonly CertificationFact[]
  readonly versions: readonly {
    readonly standard: string
    readonly version: number
    readonly from: string
    readonly published: boolean
    readonly equivalent: boolean
    readonly arms: readonly string[]
  }[]
  readonly breaks: readonly Break[]
}

export async function readFacts({ sql }: Pick<TestApp, 'sql'>): Promise<Facts> {
  const units = await sql<{ id: string; parent: string | null }>('SELECT id, parent_id AS parent FROM unit')
  const soldiers = await sql<SoldierFact & { id: string }>(`
    SELECT s.id,
      ${listOf('soldier_change x', 'x.soldier_id', "'from', from_day, 'grade', grade, 'arms', arms, 'unitId', unit_id, 'left', \"left\"", 'from_day, id')} AS changes,
      ${listOf('sponsorship x', 'x.candidate_id', "'sponsorId', sponsor_id, 'from', from_day, 'to', to_day")} AS sponsorships,
      ${listOf('appointment x', 'x.soldier_id', "'standard', standard, 'from', from_day, 'to', to_day")} AS appointments,
      ${listOf('review x', 'x.soldier_id', "'standard', standard, 'on', on_day")} AS reviews,
      ${listOf(`carried_award x ${WITH_CODE}`, 'x.soldier_id', "'id', x.id, 'certification', c.code, 'awardedOn', awarded_on, 'validThrough', valid_through, 'entry', entry")} AS awards,
      ${listOf(`withdrawal x ${WITH_CODE}`, 'x.soldier_id', "'certification', c.code, 'on', on_day")} AS withdrawals,
      ${listOf(`suspension x ${WITH_CODE}`, 'x.soldier_id', "'certification', c.code, 'from', from_day, 'lift', lift_day")} AS suspensions,
      ${listOf(`award_decision x ${WITH_CODE}`, 'x.taken_back_at IS NULL AND x.soldier_id', "'certification', c.code, 'sheetId', sheet_id, 'decision', decision, 'on', on_day")} AS decisions,
      ${listOf(`award_extension x ${WITH_CODE}`, 'x.taken_back_at IS NULL AND x.soldier_id', "'certification', c.code, 'award', COALESCE(sheet_id, carried_award_id), 'days', days")} AS extensions
    FROM soldier s`)
  const sheets = await sql<SheetFact>(`
    SELECT s.id, r.body || jsonb_build_object('candidateId', s.candidate_id, 'sponsorId', s.sponsor_id,
        'graderId', s.grader_id) AS body, r.score, s.day::text, s.state, s.violations, s.waived, s.tolerated, s.attempts,
      s.is_overlapping AS overlaps, s.void_after_failure AS "voidAfterFailure", s.clock_skew_ms::float8 AS "clockSkewMs",
      (extract(epoch FROM s.finished_at) * 1000)::float8 AS "finishedAt",
      (extract(epoch FROM s.started_at) * 1000)::float8 AS "startedAt",
      (extract(epoch FROM s.revised_at) * 1000)::float8 AS "revisedAt"
    FROM sheet s JOIN sheet_revision r ON r.sheet_id = s.id
    WHERE r.number = (SELECT max(number) FROM sheet_revision WHERE sheet_id = s.id)`)
  const certifications = await sql<CertificationFact>(`
    SELECT code, arms,
      (SELECT json_agg(s.code ORDER BY x.position) FROM certification_standard x JOIN standard s ON s.id = x.standard_id
        WHERE x.certification_id = c.id) AS standards,
      (SELECT json_agg(json_build_object('effectiveFrom', effective_from, 'sequence', sequence, 'windowDays', window_days,
        'validityMonths', validity_months, 'waitDays', wait_days, 'dueDays', due_days, 'reviewAfter', review_after,
        'approval', approval, 'extensionDays', extension_days,
        'requiredGrades', required_grades, 'requiredUnits', required_units))
        FROM certification_terms WHERE certification_id = c.id) AS terms
    FROM certification c`)
  const versions = await sql<Facts['versions'][number]>(`
    SELECT s.code AS standard, version, effective_from::text AS "from", published_at IS NOT NULL AS published,
      equivalent_to_previous AS equivalent, definition->'arms' AS arms
    FROM standard_version v JOIN standard s ON s.id = v.standard_id`)
  return {
    parents: new Map(units.map(({ id, parent }) => [id, parent])),
    soldiers: new Map(soldiers.map(({ id, ...facts }) => [id, facts])),
    sheets,
    certifications,
    versions,
    breaks: versions
      .filter(({ published, equivalent }) => published && !equivalent)
      .map(({ standard, version, from }) => ({ standard, version, effectiveFrom: from })),
  }
}

const WITH_CODE = 'JOIN certification c ON c.id = x.certification_id'

const listOf = (from: string, owner: string, fields: string, order = '1'): string =>
  `(SELECT COALESCE(json_agg(json_build_object(${fields}) ORDER BY ${order}), '[]') FROM ${from} WHERE ${owner} = s.id)`
