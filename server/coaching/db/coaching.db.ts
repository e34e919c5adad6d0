import { soldierInScope } from '../../access/db/scope.db.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'
import type { MarkedTest } from '../../domain/coaching/measure-history.ts'
import type { FaultCount } from '../../domain/coaching/study-faults.ts'

export interface Sponsored {
  readonly candidateId: string
  readonly rosterNumber: string
  readonly since: string
  readonly until: string | null
}

/** A page of those whom a soldier sponsors on a day, by roster number, and since when there were how many. */
export async function listSponsored(
  tx: Transaction,
  sponsorId: string,
  day: string,
  page: { limit: number; after: string | null },
): Promise<Sponsored[]> {
  return tx.$queryRaw<Sponsored[]>`
    SELECT s.id::text AS "candidateId", s.roster_number AS "rosterNumber", min(x.from_day)::text AS since,
      CASE WHEN bool_or(x.to_day IS NULL) THEN NULL ELSE max(x.to_day)::text END AS until
    FROM sponsorship x JOIN soldier s ON s.id = x.candidate_id
    WHERE x.sponsor_id = ${sponsorId}::uuid AND daterange(x.from_day, x.to_day, '[]') @> ${day}::date
      AND (${page.after === null} OR s.roster_number > ${page.after ?? ''})
    GROUP BY s.id ORDER BY s.roster_number LIMIT ${page.limit}`
}

/** Since when each of the candidates whom a soldier sponsors on a day is theirs, the first first. */
export async function sponsoringSince(tx: Transaction, sponsorId: string, day: string): Promise<string[]> {
  const rows = await tx.$queryRaw<{ since: string }[]>`
    SELECT min(from_day)::text AS since FROM sponsorship
    WHERE sponsor_id = ${sponsorId}::uuid AND daterange(from_day, to_day, '[]') @> ${day}::date
    GROUP BY candidate_id ORDER BY 1`
  return rows.map(({ since }) => since)
}

export interface PresentSponsor {
  readonly candidateId: string
  readonly sponsorId: string
  readonly until: string | null
  /** Whether the scope lets one see how this sponsor stands. */
  readonly visible: boolean
}

/** Who sponsors these candidates on a day. */
export async function listPresentSponsors(
  tx: Transaction,
  scope: Scope,
  candidateIds: readonly string[],
  day: string,
): Promise<PresentSponsor[]> {
  return tx.$queryRaw<PresentSponsor[]>`
    SELECT x.candidate_id::text AS "candidateId", x.sponsor_id::text AS "sponsorId", x.to_day::text AS until,
      ${soldierInScope(scope, Prisma.sql`x.sponsor_id`)} AS visible
    FROM sponsorship x
    WHERE x.candidate_id = ANY(${[...candidateIds]}::uuid[]) AND daterange(x.from_day, x.to_day, '[]') @> ${day}::date
    ORDER BY x.from_day, x.id`
}

export interface CandidateTest extends MarkedTest {
  readonly candidateId: string
  readonly standard: string
}

/** The tests with marks that count, of candidates in scope, in order: no practice, no void, no second grader's sheet. */
export async function listMarkedTests(
  tx: Transaction,
  scope: Scope,
  candidateIds: readonly string[],
): Promise<CandidateTest[]> {
  return tx.$queryRaw<CandidateTest[]>`
    SELECT s.candidate_id::text AS "candidateId", st.code AS standard, v.version, s.day::text AS day, s.marks
    FROM sheet s JOIN standard_version v ON v.id = s.standard_version_id JOIN standard st ON st.id = s.standard_id
    WHERE s.candidate_id = ANY(${[...candidateIds]}::uuid[]) AND s.state = 'counted' AND s.purpose = 'test'
      AND s.second_of IS NULL AND s.ending <> 'void' AND s.marks <> ''
      AND ${soldierInScope(scope, Prisma.sql`s.candidate_id`)}
    ORDER BY s.finished_at, s.id`
}

export interface CandidateFault extends FaultCount {
  readonly candidateId: string
  readonly standard: string
}

/** How often each fault was noted on candidates' tests that count, of the revisions in force. */
export async function listOwnFaults(
  tx: Transaction,
  scope: Scope,
  candidateIds: readonly string[],
): Promise<CandidateFault[]> {
  return tx.$queryRaw<CandidateFault[]>`
    SELECT s.candidate_id::text AS "candidateId", st.code AS standard, noted.measure, noted.fault, count(*)::int AS count
    FROM sheet s JOIN standard st ON st.id = s.standard_id
    JOIN sheet_revision r ON r.sheet_id = s.id AND r.number = s.revision
    CROSS JOIN LATERAL (
      SELECT m->>'code' AS measure, f->>'code' AS fault
      FROM jsonb_array_elements(r.score->'minors') m, jsonb_array_elements(m->'faults') f
      UNION ALL SELECT m->>'code', f #>> '{}'
      FROM jsonb_array_elements(r.body->'majors') m, jsonb_array_elements(m->'faults') f) noted
    WHERE s.candidate_id = ANY(${[...candidateIds]}::uuid[]) AND s.state = 'counted' AND s.purpose = 'test'
      AND s.second_of IS NULL AND s.ending <> 'void' AND s.marks <> ''
      AND ${soldierInScope(scope, Prisma.sql`s.candidate_id`)}
    GROUP BY 1, 2, 3, 4`
}
