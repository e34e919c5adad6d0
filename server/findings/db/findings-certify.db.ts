import { subtree } from '../../access/db/scope.db.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'

export interface CertifyFilter {
  /** Codes of the certifications asked about. */
  readonly certifications: readonly string[]
  readonly start: 'first-attempt' | 'first-sponsor'
  /** Those whose first day lies in this period; null: no limit. */
  readonly from: string | null
  readonly to: string | null
  /** Their unit on the first day, with all below it. */
  readonly unitId: string | undefined
  /** The level of the units that are compared. */
  readonly level: string
  /** Those who are still waiting were seen until this day. */
  readonly today: string
}

/** Soldiers of one certification and company who were seen for so many days from their first one. */
export interface CertifyTally {
  readonly certification: string
  readonly companyId: string | null
  readonly company: string | null
  readonly days: number
  /** Considered tests they took by then, counted from the first ever. */
  readonly tests: number
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
  JOIN soldier_period p ON p.soldier_id = first.soldier_id AND p.from_day <= first.first_day
    AND (p.through_day IS NULL OR p.through_day >= first.first_day)
  JOIN certs c ON cardinality(c.arms) = 0 OR c.arms && p.arms
  JOIN (SELECT t.*, lag(effective_from) OVER in_order AS earlier, lead(effective_from) OVER in_order AS later
    FROM certification_terms t WINDOW in_order AS (PARTITION BY certification_id ORDER BY effective_from)) terms
    ON terms.certification_id = c.id AND (terms.effective_from <= first.first_day OR terms.earlier IS NULL)
      AND (terms.later IS NULL OR terms.later > first.first_day)
  WHERE (terms.required_grades IS NULL OR terms.required_grades ? p.grade)
    AND (terms.required_units IS NULL OR EXISTS (SELECT FROM unit u WHERE u.id = p.unit_id
      AND u.lineage && ARRAY(SELECT jsonb_array_elements_text(terms.required_units)::uuid)))`

/**
 * How long soldiers took, from their first day to their first award, or were seen without one: until they left the strength
 * or training, or until today. An award carried over counts as one. Whoever was not in the strength on the first day or
 * later was seen that day alone.
 */
export async function readCertifyTallies(tx: Transaction, filter: CertifyFilter): Promise<CertifyTally[]> {
  const { certifications, start, from, to, unitId, level, today } = filter
  const days = [Prisma.sql`first_day <= ${today}::date`]
  if (from !== null) days.push(Prisma.sql`first_day >= ${from}::date`)
  if (to !== null) days.push(Prisma.sql`first_day <= ${to}::date`)
  return tx.$queryRaw<CertifyTally[]>`
    WITH certs AS MATERIALIZED (SELECT id, code, arms FROM certification WHERE code = ANY(${[...certifications]})),
    firsts AS MATERIALIZED (
      SELECT * FROM (${start === 'first-attempt' ? FIRST_ATTEMPTS : FIRST_SPONSORS}) every
      WHERE ${Prisma.join(days, ' AND ')}),
    earned AS MATERIALIZED (
      SELECT soldier_id, certification_id, min(awarded_on) AS awarded_on FROM earned_award GROUP BY 1, 2),
    seen AS (
      SELECT f.soldier_id, f.certification_id, f.first_day, LEAST(min(e.awarded_on), min(c.awarded_on)) AS first_award,
        (array_agg(p.unit_id) FILTER (WHERE p.from_day <= f.first_day))[1] AS unit_id,
        GREATEST(f.first_day, LEAST(${today}::date, min(w.on_day),
          CASE WHEN count(p.soldier_id) = 0 THEN f.first_day
            ELSE min(p.through_day) FILTER (WHERE onward.soldier_id IS NULL) END)) AS last_day
      FROM firsts f
      LEFT JOIN soldier_period p ON p.soldier_id = f.soldier_id AND (p.through_day IS NULL OR p.through_day >= f.first_day)
      LEFT JOIN soldier_period onward ON onward.soldier_id = p.soldier_id AND onward.from_day = p.through_day + 1
      LEFT JOIN earned e ON e.soldier_id = f.soldier_id AND e.certification_id = f.certification_id
      LEFT JOIN carried_award c ON c.soldier_id = f.soldier_id AND c.certification_id = f.certification_id
      LEFT JOIN withdrawal w ON w.soldier_id = f.soldier_id AND w.certification_id = f.certification_id
        AND w.on_day >= f.first_day
      GROUP BY f.soldier_id, f.certification_id, f.first_day),
    ended AS (
      SELECT *, COALESCE(first_award < first_day, false) AS is_renewal,
        COALESCE(first_award BETWEEN first_day AND last_day, false) AS is_certified FROM seen
      ${unitId === undefined ? Prisma.empty : Prisma.sql`WHERE unit_id = ANY(${subtree(unitId)})`}),
    companies AS MATERIALIZED (
      SELECT u.id AS unit_id, company.id, company.name FROM unit u
      CROSS JOIN LATERAL (SELECT above.id, above.name FROM unnest(u.lineage) WITH ORDINALITY AS line(id, height)
        JOIN unit above ON above.id = line.id AND above.kind = ${level} ORDER BY height LIMIT 1) company)
    SELECT c.code AS certification, company.id::text AS "companyId", company.name AS company,
      CASE WHEN is_renewal THEN 0 WHEN is_certified THEN first_award - first_day ELSE last_day - first_day END AS days,
      coalesce(tests.n, 0)::int AS tests,
      count(*) FILTER (WHERE NOT is_renewal AND is_certified)::int AS certified,
      count(*) FILTER (WHERE NOT is_renewal AND NOT is_certified AND last_day = ${today}::date)::int AS waiting,
      count(*) FILTER (WHERE NOT is_renewal AND NOT is_certified AND last_day < ${today}::date)::int AS "left",
      count(*) FILTER (WHERE is_renewal)::int AS "certifiedBefore"
    FROM ended e JOIN certs c ON c.id = e.certification_id LEFT JOIN companies company ON company.unit_id = e.unit_id
      LEFT JOIN LATERAL (SELECT count(*) AS n FROM sheet s JOIN certification_standard cs
          ON cs.certification_id = c.id AND cs.standard_id = s.standard_id
        WHERE NOT e.is_renewal AND s.candidate_id = e.soldier_id AND s.tallied_kind IS NOT NULL
          AND (cardinality(c.arms) = 0 OR s.arm = ANY(c.arms))
          AND s.day <= CASE WHEN e.is_certified THEN e.first_award ELSE e.last_day END) tests ON true
    GROUP BY 1, 2, 3, 4, 5 ORDER BY 1, 3, 2, 4, 5`
}
