import type { MeasureFindings, SponsorFindings } from '../contract/findings.ts'
import type { PeriodRange } from '../domain/tallies/cover-period.ts'
import type { Transaction } from './client.ts'
import { Prisma } from './generated/client.ts'
import { NO_UNIT } from './tallies.db.ts'

export interface FindingsFilter {
  readonly standard?: string | undefined
  readonly unitId?: string | undefined
  readonly arm?: string | undefined
  readonly kind?: 'first' | 'retest' | undefined
  readonly periods: readonly PeriodRange[]
}

/** The tallies that make up an answer: of the unit, or of the tops of the tree and those in no unit. */
function chosen({ standard, unitId, arm, kind, periods }: FindingsFilter): Prisma.Sql {
  const spans = periods.map(
    ({ grain, first, last }) => Prisma.sql`(t.grain = ${grain} AND t.start BETWEEN ${first}::date AND ${last}::date)`,
  )
  const units = unitId
    ? Prisma.sql`ARRAY[${unitId}::uuid]`
    : Prisma.sql`ARRAY(SELECT id FROM unit WHERE parent_id IS NULL UNION ALL SELECT ${NO_UNIT}::uuid)`
  return Prisma.sql`
    chosen AS MATERIALIZED (
      SELECT t.id, t.kind, s.code AS standard FROM tally t JOIN standard s ON s.id = t.standard_id
      WHERE t.unit_id = ANY(${units})
        ${standard === undefined ? Prisma.empty : Prisma.sql`AND s.code = ${standard}`}
        ${arm === undefined ? Prisma.empty : Prisma.sql`AND t.arm = ${arm}`}
        ${kind === undefined ? Prisma.empty : Prisma.sql`AND t.kind = ${kind}`}
        AND (${spans.length > 0 ? Prisma.join(spans, ' OR ') : Prisma.sql`false`}))`
}

/** NO-GOs, trials and faults by measure, majors apart, by standard and code. */
export async function readMeasureFindings(
  tx: Transaction,
  filter: FindingsFilter,
): Promise<Pick<MeasureFindings, 'items' | 'majors'>> {
  const rows = await tx.$queryRaw<(MeasureFindings['items'][number] & { isMajor: boolean })[]>`
    WITH ${chosen(filter)},
    faults AS (
      SELECT standard, measure, major, json_agg(json_build_object('code', fault, 'count', count) ORDER BY fault) AS faults
      FROM (SELECT c.standard, f.measure, f.major, f.fault, sum(f.count)::int AS count
        FROM chosen c JOIN fault_tally f ON f.tally_id = c.id
        GROUP BY c.standard, f.measure, f.major, f.fault HAVING sum(f.count) > 0) counted
      GROUP BY standard, measure, major)
    SELECT m.standard, m.measure, m.major AS "isMajor", m.tested, m."noGo", m.trials, m.incorrect,
      COALESCE(f.faults, '[]') AS faults
    FROM (SELECT c.standard, t.measure, t.major, sum(t.tested)::int AS tested, sum(t.no_go)::int AS "noGo",
        sum(t.trials)::int AS trials, sum(t.incorrect)::int AS incorrect
      FROM chosen c JOIN measure_tally t ON t.tally_id = c.id
      GROUP BY c.standard, t.measure, t.major HAVING sum(t.trials) > 0) m
    LEFT JOIN faults f USING (standard, measure, major)
    ORDER BY m.standard, m.measure`
  return {
    items: rows.filter(({ isMajor }) => !isMajor).map(({ isMajor: _, ...measure }) => measure),
    majors: rows
      .filter(({ isMajor }) => isMajor)
      .map(({ standard, measure, tested, noGo, faults }) => ({
        standard,
        major: measure,
        judged: tested,
        noGo,
        faults,
      })),
  }
}

/** A page of attempts and passes by sponsor (of these; null: of all), by name. `day`: as of which the grade is shown. */
export async function readSponsorFindings(
  tx: Transaction,
  filter: FindingsFilter,
  sponsorIds: readonly string[] | null,
  day: string,
  page: { limit: number; after: { name: string; id: string } | null },
): Promise<SponsorFindings['items']> {
  return tx.$queryRaw<SponsorFindings['items']>`
    WITH ${chosen(filter)}
    SELECT s.id::text AS "sponsorId", s.family_name || ', ' || s.given_name AS name,
      (SELECT grade FROM soldier_period p WHERE p.soldier_id = s.id
        ORDER BY p.from_day > ${day}::date, abs(p.from_day - ${day}::date) LIMIT 1) AS grade,
      sum(t.attempts)::int AS attempts, sum(t.passes)::int AS passes,
      COALESCE(sum(t.attempts) FILTER (WHERE c.kind = 'first'), 0)::int AS "firstAttempts",
      COALESCE(sum(t.passes) FILTER (WHERE c.kind = 'first'), 0)::int AS "firstPasses"
    FROM chosen c JOIN sponsor_tally t ON t.tally_id = c.id JOIN soldier s ON s.id = t.sponsor_id
    WHERE ${sponsorIds === null} OR s.id = ANY(${[...(sponsorIds ?? [])]}::uuid[])
    GROUP BY s.id HAVING sum(t.attempts) > 0
      AND (${page.after === null} OR (s.family_name || ', ' || s.given_name, s.id)
        > (${page.after?.name ?? ''}, ${page.after?.id ?? null}::uuid))
    ORDER BY s.family_name || ', ' || s.given_name, s.id LIMIT ${page.limit}`
}
