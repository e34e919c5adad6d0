import type { CeremonyBody, CeremonyDetail, CeremonySummary } from '../contract/ceremonies.ts'
import type { Scope } from '../domain/access/scope.ts'
import type { Transaction } from './client.ts'
import { toDate } from './dates.ts'
import { Prisma } from './generated/client.ts'
import { soldierInScope, unitInScope } from './scope.db.ts'

/** Stores a ceremony with its posts. `certificationIds` by code. Out: its id. */
export async function insertCeremony(
  tx: Transaction,
  body: CeremonyBody,
  day: string,
  certificationIds: ReadonlyMap<string, string>,
): Promise<string> {
  const posts = body.posts.map(({ certification, grades, ...post }) => ({
    ...post,
    grades: grades ?? Prisma.DbNull,
    certificationId: certificationIds.get(certification)!,
  }))
  const { title, place, unitId } = body
  const times = { startsAt: new Date(body.startsAt), endsAt: new Date(body.endsAt), day: toDate(day) }
  const { id } = await tx.ceremony.create({
    data: { title, place, unitId, ...times, posts: { create: posts } },
    select: { id: true },
  })
  return id
}

/**
 * Posts of ceremonies with who is named to them, whether the scope lets one see them, and every reason why that soldier
 * may not stand there that day.
 */
const posts = (scope: Scope): Prisma.Sql => Prisma.sql`
  named AS (
    SELECT p.*, c.code AS certification, cer.day,
      ${soldierInScope(scope, Prisma.sql`p.soldier_id`, Prisma.sql`period.unit_id`)} AS in_scope,
      s.family_name || ', ' || s.given_name AS name, period.grade, period.arms,
      COALESCE(st.status, 'no test yet') AS status, st.valid_through,
      CASE WHEN p.soldier_id IS NOT NULL THEN array_remove(ARRAY[
        CASE WHEN period.soldier_id IS NULL THEN 'not in strength' END,
        CASE WHEN st.status = 'suspended' THEN 'suspended'
          WHEN st.status IS DISTINCT FROM 'certified' THEN 'not certified' END,
        CASE WHEN p.arm IS NOT NULL AND NOT p.arm = ANY(COALESCE(period.arms, '{}')) THEN 'wrong arm' END,
        CASE WHEN p.grades IS NOT NULL AND NOT p.grades ? COALESCE(period.grade, '') THEN 'wrong grade' END], NULL)
      END AS why_not
    FROM chosen cer JOIN post p ON p.ceremony_id = cer.id JOIN certification c ON c.id = p.certification_id
    LEFT JOIN soldier s ON s.id = p.soldier_id
    LEFT JOIN LATERAL (SELECT * FROM soldier_period sp WHERE sp.soldier_id = p.soldier_id
      AND daterange(sp.from_day, sp.through_day, '[]') @> cer.day) period ON true
    LEFT JOIN LATERAL (SELECT * FROM (SELECT * FROM standing x WHERE x.soldier_id = p.soldier_id
        AND x.certification_id = p.certification_id AND x.from_day <= cer.day ORDER BY x.from_day DESC LIMIT 1) latest
      WHERE latest.through_day IS NULL OR latest.through_day >= cer.day) st ON true)`

const HEAD = Prisma.sql`
  cer.id::text, cer.title, cer.place, cer.unit_id::text AS "unitId", cer.day::text,
  to_char(cer.starts_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') AS "startsAt",
  to_char(cer.ends_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') AS "endsAt",
  (SELECT count(*)::int FROM named n WHERE n.ceremony_id = cer.id) AS posts,
  (SELECT count(*)::int FROM named n WHERE n.ceremony_id = cer.id AND cardinality(n.why_not) = 0) AS filled`

/** A page of ceremonies from a day on, in order of time. */
export async function listCeremonies(
  tx: Transaction,
  scope: Scope,
  fromDay: string,
  page: { limit: number; after: { startsAt: string; id: string } | null },
): Promise<CeremonySummary[]> {
  const after = page.after
    ? Prisma.sql`AND (starts_at, id) > (${page.after.startsAt}::timestamptz, ${page.after.id}::uuid)`
    : Prisma.empty
  return tx.$queryRaw<CeremonySummary[]>`
    WITH chosen AS (SELECT * FROM ceremony WHERE day >= ${fromDay}::date ${after}
      AND ${unitInScope(scope, Prisma.sql`ceremony.unit_id`)} ORDER BY starts_at, id LIMIT ${page.limit}),
    ${posts(scope)} SELECT ${HEAD} FROM chosen cer ORDER BY cer.starts_at, cer.id`
}

/** One ceremony with its posts as they form up; null where there is none. */
export async function readCeremony(tx: Transaction, scope: Scope, id: string): Promise<CeremonyDetail | null> {
  const rows = await tx.$queryRaw<CeremonyDetail[]>`
    WITH chosen AS (SELECT * FROM ceremony WHERE id = ${id}::uuid
      AND ${unitInScope(scope, Prisma.sql`ceremony.unit_id`)}), ${posts(scope)}
    SELECT ${HEAD},
      (SELECT json_agg(json_build_object('id', n.id, 'title', n.title, 'row', n.row, 'place', n.place,
        'certification', n.certification, 'arm', n.arm, 'grades', n.grades,
        'otherUnit', n.soldier_id IS NOT NULL AND NOT n.in_scope,
        'soldier', CASE WHEN n.soldier_id IS NOT NULL AND n.in_scope THEN json_build_object('id', n.soldier_id, 'name', n.name,
          'grade', COALESCE(n.grade, ''), 'status', n.status, 'validThrough', n.valid_through, 'whyNot', n.why_not) END)
        ORDER BY n.row, n.place) FROM named n) AS formation
    FROM chosen cer`
  return rows[0] ?? null
}
