import type { Transaction } from './client.ts'
import { Prisma } from './generated/client.ts'
import { subtree } from './scope.db.ts'

export interface CertifyFilter {
  /** Codes of the certifications asked about. */
  readonly certifications: readonly string[]
  readonly start: 'first-attempt' | 'first-sponsor'
  /** Those whose first day lies in this period; null: no limit. */
  readonly from: string | null
  readonly to: string | null
  /** Their unit on the first day, with all below it. */
  readonly unitId: string | undefined
  /** Those who are still waiting were seen until this day. */
  readonly today: string
}

/** Soldiers of one certification and company who were seen for so many days from their first one. */
export interface CertifyTally {
  readonly certification: string
  readonly companyId: string | null
  readonly company: string | null
  readonly days: number
  readonly certified: number
  readonly waiting: number
  readonly left: number
  /** Held it before their first day; counted at day 0 and in none of the others. */
  readonly certifiedBefore: number
}

/** First considered attempt of each soldier. */
const FIRST_ATTEMPTS = Prisma.sql`
  SELECT s.candidate_id AS soldier_id, c.id AS certification_id, min(s.day) AS first_day
  FROM certs c JOIN certification_standard cs ON cs.certification_id = c.id JOIN sheet s ON s.standard_id = cs.standard_id
  WHERE s.tallied_kind IS NOT NULL AND (cardinality(c.arms) = 0 OR s.arm = ANY(c.arms)) GROUP BY 1, 2`

/** First day with a sponsor, in every certification that fitted the soldier and was required of them that day. */
const FIRST_SPONSORS = Prisma.sql`
  SELECT first.soldier_id, c.id AS certification_id, first.first_day
  FROM (SELECT candidate_id AS soldier_id, min(from_day) AS first_day FROM sponsorship GROUP BY 1) first
  JOIN soldier_period p ON p.soldier_id = first.soldier_id
    AND daterange(p.from_day, p.through_day, '[]') @> first.first_day
  JOIN certs c ON cardinality(c.arms) = 0 OR c.arms && p.arms
  CROSS JOIN LATERAL (SELECT * FROM certification_terms t WHERE t.certification_id = c.id
    ORDER BY t.effective_from <= first.first_day DESC, abs(t.effective_from - first.first_day) LIMIT 1) terms
  WHERE (terms.required_grades IS NULL OR terms.required_grades ? p.grade)
    AND (terms.required_units IS NULL OR EXISTS (SELECT FROM unit u WHERE u.id = p.unit_id
      AND u.lineage && ARRAY(SELECT jsonb_array_elements_text(terms.required_units)::uuid)))`

/**
 * How long soldiers took, from their first day to their first award, or were seen without one: until they left the strength
 * or training, or until today. An award carried over counts as one.
 */
export async function readCertifyTallies(tx: Transaction, filter: CertifyFilter): Promise<CertifyTally[]> {
  const { certifications, start, from, to, unitId, today } = filter
  const conditions = [Prisma.sql`f.first_day <= ${today}::date`]
  if (from !== null) conditions.push(Prisma.sql`f.first_day >= ${from}::date`)
  if (to !== null) conditions.push(Prisma.sql`f.first_day <= ${to}::date`)
  if (unitId !== undefined) conditions.push(Prisma.sql`p.unit_id = ANY(${subtree(unitId)})`)
  return tx.$queryRaw<CertifyTally[]>`
    WITH certs AS MATERIALIZED (SELECT id, code, arms FROM certification WHERE code = ANY(${[...certifications]})),
    firsts AS MATERIALIZED (${start === 'first-attempt' ? FIRST_ATTEMPTS : FIRST_SPONSORS}),
    awards AS MATERIALIZED (
      SELECT soldier_id, certification_id, awarded_on FROM earned_award WHERE certification_id IN (SELECT id FROM certs)
      UNION ALL
      SELECT soldier_id, certification_id, awarded_on FROM carried_award WHERE certification_id IN (SELECT id FROM certs)),
    seen AS (
      SELECT f.certification_id, f.first_day, p.unit_id, a.first_award, GREATEST(f.first_day, LEAST(${today}::date,
        CASE WHEN present.is_later THEN present.left_on ELSE f.first_day END, w.withdrawn_on)) AS last_day
      FROM firsts f
      LEFT JOIN soldier_period p ON p.soldier_id = f.soldier_id
        AND daterange(p.from_day, p.through_day, '[]') @> f.first_day
      CROSS JOIN LATERAL (SELECT min(awarded_on) AS first_award FROM awards
        WHERE soldier_id = f.soldier_id AND certification_id = f.certification_id) a
      CROSS JOIN LATERAL (SELECT min(on_day) AS withdrawn_on FROM withdrawal
        WHERE soldier_id = f.soldier_id AND certification_id = f.certification_id AND on_day >= f.first_day) w
      CROSS JOIN LATERAL (SELECT count(*) > 0 AS is_later, min(q.through_day) FILTER (WHERE NOT EXISTS (
          SELECT FROM soldier_period n WHERE n.soldier_id = q.soldier_id AND n.from_day = q.through_day + 1)) AS left_on
        FROM soldier_period q WHERE q.soldier_id = f.soldier_id
          AND (q.through_day IS NULL OR q.through_day >= f.first_day)) present
      WHERE ${Prisma.join(conditions, ' AND ')}),
    ended AS (
      SELECT *, COALESCE(first_award < first_day, false) AS is_renewal,
        COALESCE(first_award BETWEEN first_day AND last_day, false) AS is_certified FROM seen)
    SELECT c.code AS certification, company.id::text AS "companyId", company.name AS company,
      CASE WHEN is_renewal THEN 0 WHEN is_certified THEN first_award - first_day ELSE last_day - first_day END AS days,
      count(*) FILTER (WHERE NOT is_renewal AND is_certified)::int AS certified,
      count(*) FILTER (WHERE NOT is_renewal AND NOT is_certified AND last_day = ${today}::date)::int AS waiting,
      count(*) FILTER (WHERE NOT is_renewal AND NOT is_certified AND last_day < ${today}::date)::int AS "left",
      count(*) FILTER (WHERE is_renewal)::int AS "certifiedBefore"
    FROM ended e JOIN certs c ON c.id = e.certification_id
    LEFT JOIN unit u ON u.id = e.unit_id
    LEFT JOIN LATERAL (SELECT above.id, above.name FROM unnest(u.lineage) WITH ORDINALITY AS line(id, height)
      JOIN unit above ON above.id = line.id AND above.kind = 'company' ORDER BY height LIMIT 1) company ON true
    GROUP BY 1, 2, 3, 4 ORDER BY 1, 3, 2, 4`
}
