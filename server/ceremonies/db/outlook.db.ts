import { soldierInScope, subtree } from '../../access/db/scope.db.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'
import { testDayVisible } from '../../test-days/db/test-days.db.ts'
import { type FactsRow, facts, OCCASION } from './manning-facts.db.ts'

export interface OutlookRow extends FactsRow {
  readonly statusToday: FactsRow['status']
  readonly toward: { standard: string; countsUntil: string }[]
  readonly retests: { standard: string; earliest: string; needsReview: boolean }[]
  readonly bookings: { standard: string; on: string; testDayId: string }[]
}

/**
 * Everybody of a unit and the ceremony's, in scope, with each certification that its posts ask for and that fits them:
 * facts of that day, and what lies on the way to it from today. By roster number. At most `limit` rows.
 */
export async function readOutlook(
  tx: Transaction,
  scope: Scope,
  filter: { ceremonyId: string; unitId: string | undefined; today: string; limit: number },
): Promise<OutlookRow[]> {
  const { ceremonyId, unitId, today, limit } = filter
  const ofUnit = unitId ? Prisma.sql`AND sp.unit_id = ANY(${subtree(unitId)})` : Prisma.empty
  return tx.$queryRaw<OutlookRow[]>`
    WITH chosen AS MATERIALIZED (SELECT * FROM ceremony WHERE id = ${ceremonyId}::uuid), ${OCCASION},
    pairs AS MATERIALIZED (
      SELECT chosen.id AS ceremony_id, sp.soldier_id, cert.id AS certification_id FROM chosen
      JOIN soldier_period sp ON daterange(sp.from_day, sp.through_day, '[]') @> chosen.day
      JOIN unit u ON u.id = sp.unit_id
      JOIN certification cert ON cardinality(cert.arms) = 0 OR cert.arms && sp.arms
      WHERE u.lineage @> ARRAY[chosen.unit_id] AND ${soldierInScope(scope, Prisma.sql`sp.soldier_id`, Prisma.sql`sp.unit_id`)}
        ${ofUnit}
        AND EXISTS (SELECT FROM post p WHERE p.ceremony_id = chosen.id AND p.certification_id = cert.id
          AND (p.arm IS NULL OR p.arm = ANY(sp.arms)) AND (p.grades IS NULL OR p.grades ? sp.grade))
      LIMIT ${limit})
    SELECT f.*, COALESCE(st.status, 'no test yet') AS "statusToday",
      (SELECT COALESCE(json_agg(json_build_object('standard', t ->> 'standard', 'countsUntil', t ->> 'countsUntil')), '[]')
        FROM jsonb_array_elements(COALESCE(st.toward, '[]')) t) AS toward,
      (SELECT COALESCE(json_agg(json_build_object('standard', r.standard, 'earliest', r.earliest,
          'needsReview', r.needs_review)), '[]') FROM retest_span r
        WHERE r.soldier_id = f."soldierId"::uuid AND r.certification_id = cert.id
          AND daterange(r.from_day, r.through_day, '[]') @> ${today}::date) AS retests,
      (SELECT COALESCE(json_agg(json_build_object('standard', std.code, 'on', td.on_day, 'testDayId', td.id)), '[]')
        FROM booking b JOIN test_day td ON td.id = b.test_day_id JOIN standard std ON std.id = b.standard_id
        WHERE b.candidate_id = f."soldierId"::uuid AND b.state IN ('booked', 'checked in') AND td.called_off_at IS NULL
          AND td.on_day >= ${today}::date) AS bookings
    FROM (${facts(scope)}) f JOIN certification cert ON cert.code = f.certification
    LEFT JOIN LATERAL (SELECT * FROM standing x WHERE x.soldier_id = f."soldierId"::uuid AND x.certification_id = cert.id
      AND x.from_day <= ${today}::date AND (x.through_day IS NULL OR x.through_day >= ${today}::date)
      ORDER BY x.from_day DESC LIMIT 1) st ON true
    ORDER BY f."rosterNumber", f.certification`
}

/**
 * Test days from one day up to another (left out) that take somebody still: with a free slot that has not begun, or with
 * none laid out yet; those in scope, of the tree of a unit. In order of day.
 */
export async function listOpenTestDays(
  tx: Transaction,
  scope: Scope,
  { unitId, from, before, now }: { unitId: string; from: string; before: string; now: Date },
): Promise<{ id: string; on: string }[]> {
  return tx.$queryRaw<{ id: string; on: string }[]>`
    SELECT td.id::text, td.on_day::text AS "on" FROM test_day td JOIN unit u ON u.id = td.unit_id
    WHERE ${testDayVisible(scope, Prisma.sql`td`)} AND u.lineage && (SELECT lineage FROM unit WHERE id = ${unitId}::uuid)
      AND td.on_day >= ${from}::date AND td.on_day < ${before}::date AND td.called_off_at IS NULL
      AND (NOT EXISTS (SELECT FROM slot WHERE slot.test_day_id = td.id)
        OR EXISTS (SELECT FROM slot WHERE slot.test_day_id = td.id AND slot.starts_at > ${now} AND NOT EXISTS
          (SELECT FROM booking b WHERE b.slot_id = slot.id AND b.state <> 'cancelled')))
    ORDER BY td.on_day, td.id`
}
