import { unitInScope } from '../../access/db/scope.db.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'
import type { CeremonyTimes } from '../../domain/manning/duty-times.ts'
import type { PostNeed } from '../../domain/manning/types.ts'
import { type FactsRow, facts, millis, OCCASION } from './manning-facts.db.ts'

export interface PostRow extends PostNeed {
  readonly id: string
  readonly title: string
  readonly row: number
  readonly place: number
  readonly certification: string
  readonly grades: string[] | null
  readonly soldierId: string | null
}

export interface AlternateRow {
  readonly id: string
  readonly soldierId: string
  readonly postIds: string[]
}

/** A ceremony as it is stored, with what is known of everybody named to it. Instants in milliseconds since 1970. */
export interface CeremonyRow extends CeremonyTimes {
  readonly id: string
  readonly title: string
  readonly place: string
  readonly unitId: string
  readonly startsAt: number
  readonly notes: string
  readonly version: number
  readonly cancelReason: string | null
  readonly rehearsals: { startsAt: number; endsAt: number; day: string; place: string }[]
  readonly posts: PostRow[]
  readonly alternates: AlternateRow[]
  readonly facts: FactsRow[]
}

/** SQL of the ceremonies of a table `chosen` as rows (CeremonyRow), in order of time. */
const withAllNamed = (scope: Scope): Prisma.Sql => Prisma.sql`
  ${OCCASION},
  pairs AS (
    SELECT DISTINCT ceremony_id, soldier_id, certification_id FROM post
      WHERE soldier_id IS NOT NULL AND ceremony_id IN (SELECT id FROM chosen)
    UNION SELECT a.ceremony_id, a.soldier_id, p.certification_id FROM alternate a JOIN post p ON p.ceremony_id = a.ceremony_id
      WHERE a.ceremony_id IN (SELECT id FROM chosen)),
  facts AS MATERIALIZED (${facts(scope)})
  SELECT c.id::text, c.title, c.place, c.unit_id::text AS "unitId", c.day::text, c.notes, c.version,
    c.cancel_reason AS "cancelReason", c.minutes_before AS "minutesBefore", c.minutes_after AS "minutesAfter",
    ${millis(Prisma.sql`c.reports_at`)} AS "reportsAt", ${millis(Prisma.sql`c.starts_at`)} AS "startsAt",
    ${millis(Prisma.sql`c.ends_at`)} AS "endsAt",
    (SELECT COALESCE(json_agg(json_build_object('startsAt', ${millis(Prisma.sql`r.starts_at`)},
        'endsAt', ${millis(Prisma.sql`r.ends_at`)}, 'day', r.day, 'place', r.place) ORDER BY r.starts_at, r.id), '[]')
      FROM rehearsal r WHERE r.ceremony_id = c.id) AS rehearsals,
    (SELECT COALESCE(json_agg(json_build_object('id', p.id, 'title', p.title, 'row', p.row, 'place', p.place,
        'certification', cert.code, 'arm', p.arm, 'grades', p.grades, 'minHeightCm', p.min_height_cm,
        'maxHeightCm', p.max_height_cm, 'soldierId', p.soldier_id) ORDER BY p.row, p.place), '[]')
      FROM post p JOIN certification cert ON cert.id = p.certification_id WHERE p.ceremony_id = c.id) AS posts,
    (SELECT COALESCE(json_agg(json_build_object('id', a.id, 'soldierId', a.soldier_id, 'postIds',
        ARRAY(SELECT ap.post_id FROM alternate_post ap WHERE ap.alternate_id = a.id ORDER BY ap.post_id))
        ORDER BY a.position, a.id), '[]')
      FROM alternate a WHERE a.ceremony_id = c.id) AS alternates,
    (SELECT COALESCE(json_agg(f), '[]') FROM facts f WHERE f."ceremonyId" = c.id::text) AS facts
  FROM chosen c ORDER BY c.starts_at, c.id`

export interface CeremonyFilter {
  readonly from: string
  readonly through?: string | undefined
  /** Those called off, too. */
  readonly cancelled: boolean
}

/** A page of ceremonies of units in scope, in order of time. */
export async function listCeremonies(
  tx: Transaction,
  scope: Scope,
  { from, through, cancelled }: CeremonyFilter,
  page: { limit: number; after: { startsAt: string; id: string } | null },
): Promise<CeremonyRow[]> {
  const conditions = [Prisma.sql`day >= ${from}::date`, unitInScope(scope, Prisma.sql`ceremony.unit_id`)]
  if (through) conditions.push(Prisma.sql`day <= ${through}::date`)
  if (!cancelled) conditions.push(Prisma.sql`cancelled_at IS NULL`)
  if (page.after) {
    conditions.push(Prisma.sql`(starts_at, id) > (${page.after.startsAt}::timestamptz, ${page.after.id}::uuid)`)
  }
  return tx.$queryRaw<CeremonyRow[]>`
    WITH chosen AS MATERIALIZED (SELECT * FROM ceremony WHERE ${Prisma.join(conditions, ' AND ')}
      ORDER BY starts_at, id LIMIT ${page.limit}), ${withAllNamed(scope)}`
}

/** One ceremony of a unit in scope; null where there is none. */
export async function readCeremony(tx: Transaction, scope: Scope, id: string): Promise<CeremonyRow | null> {
  const rows = await tx.$queryRaw<CeremonyRow[]>`
    WITH chosen AS MATERIALIZED (SELECT * FROM ceremony WHERE id = ${id}::uuid
      AND ${unitInScope(scope, Prisma.sql`ceremony.unit_id`)}), ${withAllNamed(scope)}`
  return rows[0] ?? null
}

/** Locks a ceremony against other changes until the transaction ends. Out: its version, and whether it is called off. */
export async function lockCeremony(
  tx: Transaction,
  id: string,
): Promise<{ version: number; cancelled: boolean } | null> {
  const rows = await tx.$queryRaw<{ version: number; cancelled: boolean }[]>`
    SELECT version, cancelled_at IS NOT NULL AS cancelled FROM ceremony WHERE id = ${id}::uuid FOR UPDATE`
  return rows[0] ?? null
}
