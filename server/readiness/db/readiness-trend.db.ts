import { servesIn, servesInScope, soldierInScope, subtree } from '../../access/db/scope.db.ts'
import { IS_REQUIRED, type ReadinessFilter, termsOn } from '../../assessment/db/standings.db.ts'
import type { Lapse, ReadinessPoint } from '../../contract/readiness/readiness.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'
import { firstFrom, lastThrough } from './places-of-days.db.ts'
import { readinessChanges } from './readiness-tallies.db.ts'

/** The unit directly below the one asked about, or below the top of the tree, to which a soldier's unit `u` belongs; null: none. */
const unitBelow = (unitId: string | undefined): Prisma.Sql => {
  const top = unitId ? Prisma.sql`${unitId}::uuid` : Prisma.sql`u.lineage[cardinality(u.lineage)]`
  return Prisma.sql`u.lineage[array_position(u.lineage, ${top}) - 1]`
}

/** Of nobody: those who are in none of the units below. */
const NO_UNIT = '00000000-0000-0000-0000-000000000000'

/**
 * How many were required and certified on each of some days (`monthEnds`), by unit directly below and certification: what
 * `readTrend` says to whoever sees everybody, from tallies, so that it does not grow with the roster.
 */
export async function readTrendOfAll(
  tx: Transaction,
  days: readonly string[],
  { unitId, certification }: Omit<ReadinessFilter, 'day'>,
): Promise<ReadinessPoint[]> {
  const isTop = unitId === undefined ? Prisma.sql`parent_id IS NULL` : Prisma.sql`id = ${unitId}::uuid`
  const units = Prisma.sql`SELECT id FROM unit WHERE ${isTop} UNION ALL SELECT id FROM unit WHERE parent_id IN (SELECT id FROM unit WHERE ${isTop})`
  return tx.$queryRaw<ReadinessPoint[]>`
    WITH days AS (SELECT ${[...days]}::date[] AS list),
    ${readinessChanges(units, days.at(-1)!, ['required', 'certified'])},
    parts AS (
      SELECT id, ${NO_UNIT}::uuid AS below, 1 AS sign FROM unit WHERE ${isTop}
      UNION ALL SELECT u.id, part.below, part.sign FROM unit u
      CROSS JOIN LATERAL (VALUES (u.id, 1), (${NO_UNIT}::uuid, -1)) AS part(below, sign)
      WHERE u.parent_id IN (SELECT id FROM unit WHERE ${isTop})),
    steps AS MATERIALIZED (
      SELECT below, certification_id, place, sum(sign * required) AS required, sum(sign * certified) AS certified
      FROM changes JOIN parts ON parts.id = changes.unit_id GROUP BY 1, 2, 3),
    course AS (
      SELECT below, certification_id, place, sum(COALESCE(required, 0)) OVER upto AS required,
        sum(COALESCE(certified, 0)) OVER upto AS certified
      FROM (SELECT DISTINCT below, certification_id FROM steps) each
      CROSS JOIN generate_series(1, ${days.length}::int) AS place LEFT JOIN steps USING (below, certification_id, place)
      WINDOW upto AS (PARTITION BY below, certification_id ORDER BY place))
    SELECT days.list[place]::text AS "asOf", NULLIF(below, ${NO_UNIT}::uuid)::text AS "unitId", c.code AS certification,
      required::int, certified::int
    FROM course JOIN certification c ON c.id = course.certification_id CROSS JOIN days
    WHERE required > 0 AND (${certification === undefined} OR c.code = ${certification ?? ''})
    ORDER BY 1, 3, 2 NULLS FIRST`
}

/**
 * How many were required and certified on each of some days, by unit directly below and certification. What the question of
 * `readReadiness` would say of each day, so that a course and the look at one of its days agree; but every span is looked at
 * once, however many of the days it holds.
 */
export async function readTrend(
  tx: Transaction,
  scope: Scope,
  days: readonly string[],
  { unitId, certification }: Omit<ReadinessFilter, 'day'>,
): Promise<ReadinessPoint[]> {
  const [first, last] = [Prisma.sql`${days[0]}::date`, Prisma.sql`${days.at(-1)}::date`]
  return tx.$queryRaw<ReadinessPoint[]>`
    WITH days AS (SELECT ${[...days]}::date[] AS list),
    terms AS MATERIALIZED (
      SELECT c.id, c.code, c.arms, t.required_grades, t.required_units,
        CASE WHEN lag(t.effective_from) OVER in_order IS NULL THEN '-infinity' ELSE t.effective_from END AS from_day,
        COALESCE(lead(t.effective_from) OVER in_order - 1, 'infinity') AS through_day
      FROM certification c JOIN certification_terms t ON t.certification_id = c.id
      WHERE ${certification === undefined} OR c.code = ${certification ?? ''}
      WINDOW in_order AS (PARTITION BY c.id ORDER BY t.effective_from)),
    required AS MATERIALIZED (
      SELECT p.soldier_id, p.unit_id, t.id AS certification_id, t.code, GREATEST(p.from_day, t.from_day) AS from_day,
        LEAST(p.through_day, t.through_day) AS through_day
      FROM soldier_period p JOIN terms t ON p.from_day <= t.through_day AND COALESCE(p.through_day, 'infinity') >= t.from_day
        AND (cardinality(t.arms) = 0 OR t.arms && p.arms)
        AND (t.required_grades IS NULL OR t.required_grades ? p.grade)
        AND (t.required_units IS NULL OR EXISTS (SELECT FROM unit u WHERE u.id = p.unit_id
          AND u.lineage && ARRAY(SELECT jsonb_array_elements_text(t.required_units)::uuid)))
      WHERE p.from_day <= ${last} AND (p.through_day IS NULL OR p.through_day >= ${first})
        AND ${soldierInScope(scope, Prisma.sql`p.soldier_id`, Prisma.sql`p.unit_id`)}
        ${unitId === undefined ? Prisma.empty : Prisma.sql`AND p.unit_id = ANY(${subtree(unitId)})`}),
    spans AS (
      SELECT unit_id, code, ${firstFrom(Prisma.sql`from_day`)} AS first, ${lastThrough(Prisma.sql`through_day`)} AS last,
        count(*) AS required, 0 AS certified FROM required CROSS JOIN days GROUP BY 1, 2, 3, 4
      UNION ALL
      SELECT r.unit_id, r.code, ${firstFrom(Prisma.sql`GREATEST(r.from_day, s.from_day)`)},
        ${lastThrough(Prisma.sql`LEAST(r.through_day, s.through_day)`)}, 0, count(*)
      FROM required r JOIN standing s ON s.soldier_id = r.soldier_id AND s.certification_id = r.certification_id
        AND s.from_day <= r.through_day AND COALESCE(s.through_day, 'infinity') >= r.from_day
      CROSS JOIN days
      WHERE s.status = 'certified' AND s.from_day <= ${last} AND (s.through_day IS NULL OR s.through_day >= ${first})
      GROUP BY 1, 2, 3, 4),
    below AS (
      SELECT ${unitBelow(unitId)}::text AS id, code, first, last, sum(required) AS required, sum(certified) AS certified
      FROM spans JOIN unit u ON u.id = spans.unit_id GROUP BY 1, 2, 3, 4)
    SELECT days.list[place]::text AS "asOf", below.id AS "unitId", code AS certification, sum(required)::int AS required,
      sum(certified)::int AS certified
    FROM below CROSS JOIN days CROSS JOIN LATERAL generate_series(first, last) AS place
    GROUP BY 1, 2, 3 ORDER BY 1, 3, 2 NULLS FIRST`
}

/**
 * A page of those certified on a day whose certification ends by another, by that end. They are found by it, so that nobody
 * else is looked at.
 */
export async function listLapses(
  tx: Transaction,
  scope: Scope,
  { day, through, unitId, certification }: ReadinessFilter & { through: string },
  page: { limit: number; after: { validThrough: string; rosterNumber: string; certification: string } | null },
): Promise<Lapse[]> {
  const after = page.after ?? { validThrough: '0001-01-01', rosterNumber: '', certification: '' }
  return tx.$queryRaw<Lapse[]>`
    WITH ${termsOn(Prisma.sql`${day}::date`, certification)}
    SELECT s.id::text AS "soldierId", s.roster_number AS "rosterNumber", s.family_name || ', ' || s.given_name AS name,
      p.grade, p.unit_id::text AS "unitId", c.code AS certification, ${IS_REQUIRED} AS required,
      x.valid_through::text AS "validThrough"
    FROM standing x JOIN certs c ON c.id = x.certification_id
    JOIN soldier_period p ON p.soldier_id = x.soldier_id AND p.from_day <= ${day}::date
      AND (p.through_day IS NULL OR p.through_day >= ${day}::date)
    JOIN soldier s ON s.id = x.soldier_id
    WHERE x.status = 'certified' AND x.valid_through BETWEEN ${day}::date AND ${through}::date
      AND x.from_day <= ${day}::date AND (x.through_day IS NULL OR x.through_day >= ${day}::date)
      AND ${servesInScope(scope, Prisma.sql`x.soldier_id`, day)}
      ${unitId === undefined ? Prisma.empty : Prisma.sql`AND ${servesIn(Prisma.sql`x.soldier_id`, unitId, day)}`}
      AND x.valid_through >= ${after.validThrough}::date AND (${page.after === null}
        OR (x.valid_through, s.roster_number, c.code) > (${after.validThrough}::date, ${after.rosterNumber}, ${after.certification}))
    ORDER BY x.valid_through, s.roster_number, c.code LIMIT ${page.limit}`
}
