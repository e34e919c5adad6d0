import { soldierInScope, unitInScope } from '../../access/db/scope.db.ts'
import type { Found } from '../../contract/search/search.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'

/** The words asked for as a question to the text index: each must be how some word begins. */
const asked = (q: string): Prisma.Sql => Prisma.sql`
  (SELECT to_tsquery('simple', string_agg(word || ':*', ' & '))
    FROM regexp_split_to_table(trim(folded(${q})), ' ') word WHERE word <> '')`

/** SQL that is true where every word asked for is how some word of a text begins. */
const matches = (text: Prisma.Sql, q: string): Prisma.Sql =>
  Prisma.sql`to_tsvector('simple', folded(${text})) @@ ${asked(q)}`

/** Soldiers on the roster whose names or number begin as asked, by name; found by an index, however long the roster. */
export async function searchSoldiers(
  tx: Transaction,
  scope: Scope,
  q: string,
  day: string,
  limit: number,
): Promise<Found[]> {
  return tx.$queryRaw<Found[]>`
    SELECT 'soldier' AS kind, s.id::text, p.grade || ' ' || s.family_name || ', ' || s.given_name AS title,
      s.roster_number || COALESCE(', ' || u.name, '') AS note
    FROM soldier s
    CROSS JOIN LATERAL (
      SELECT q.*, daterange(q.from_day, q.through_day, '[]') @> ${day}::date AS covers FROM soldier_period q
      WHERE q.soldier_id = s.id
      ORDER BY q.from_day <= ${day}::date DESC, abs(q.from_day - ${day}::date) LIMIT 1) p
    LEFT JOIN unit u ON u.id = p.unit_id AND p.covers
    WHERE ${matches(Prisma.sql`s.family_name || ' ' || s.given_name || ' ' || s.roster_number`, q)}
      AND ${soldierInScope(scope, Prisma.sql`s.id`, Prisma.sql`CASE WHEN p.covers THEN p.unit_id END`)}
    ORDER BY folded(s.family_name), folded(s.given_name), s.roster_number LIMIT ${limit}`
}

/** Ceremonies and test days by what they are called and where, the nearest to today first, and standards by title. */
export async function searchEvents(
  tx: Transaction,
  scope: Scope,
  q: string,
  day: string,
  limit: number,
): Promise<Found[]> {
  return tx.$queryRaw<Found[]>`
    (SELECT 'ceremony' AS kind, c.id::text, c.title, c.day::text AS note FROM ceremony c
      WHERE ${matches(Prisma.sql`c.title || ' ' || c.place`, q)} AND ${unitInScope(scope, Prisma.sql`c.unit_id`)}
      ORDER BY abs(c.day - ${day}::date), c.id LIMIT ${limit})
    UNION ALL
    (SELECT 'test day', d.id::text, d.place, d.on_day::text FROM test_day d
      WHERE d.place <> '' AND ${matches(Prisma.sql`d.place`, q)} AND ${unitInScope(scope, Prisma.sql`d.unit_id`)}
      ORDER BY abs(d.on_day - ${day}::date), d.id LIMIT ${limit})
    UNION ALL
    (SELECT DISTINCT 'standard', s.code, v.definition->>'title', '' FROM standard s
      JOIN LATERAL (SELECT * FROM standard_version x WHERE x.standard_id = s.id AND x.published_at IS NOT NULL
        ORDER BY x.version DESC LIMIT 1) v ON true
      WHERE ${matches(Prisma.sql`v.definition->>'title'`, q)} ORDER BY 3 LIMIT ${limit})`
}
