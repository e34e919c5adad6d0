import { subtree } from '../../access/db/scope.db.ts'
import { unitOrder } from '../../access/db/unit-order.db.ts'
import type { Ask } from '../../contract/ceremonies/asks.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'

/** SQL of the full name of a unit `u`, those above it after it, without the top. */
const fullName = (u: string): Prisma.Sql => {
  const unit = Prisma.raw(u)
  return Prisma.sql`(SELECT string_agg(line.name, ', ' ORDER BY cardinality(line.lineage) DESC) FROM unit line
    WHERE line.id = ANY(${unit}.lineage) AND (line.parent_id IS NOT NULL OR line.id = ${unit}.id))`
}

const instant = (column: string): Prisma.Sql =>
  Prisma.sql`to_char(${Prisma.raw(column)} AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"')`

const ASKS = Prisma.sql`
  SELECT a.id::text, c.id::text AS "ceremonyId", c.title, c.place, ${fullName('manning')} AS "unitName", c.day::text,
    ${instant('c.reports_at')} AS "reportsAt", ${instant('c.starts_at')} AS "startsAt", ${instant('c.ends_at')} AS "endsAt",
    p.id::text AS "postId", p.title AS "postTitle", cert.code AS certification, p.arm, p.grades,
    p.min_height_cm AS "minHeightCm", p.max_height_cm AS "maxHeightCm", asked.id::text AS "askedUnitId",
    ${fullName('asked')} AS "askedUnitName", ${instant('a.asked_at')} AS "askedAt", a.answer,
    ${instant('a.answered_at')} AS "answeredAt", a.word
  FROM soldier_ask a JOIN ceremony c ON c.id = a.ceremony_id JOIN unit manning ON manning.id = c.unit_id
  JOIN post p ON p.id = a.post_id JOIN certification cert ON cert.id = p.certification_id
  JOIN unit asked ON asked.id = a.unit_id`

/** So many are listed. */
const MOST = 500

/** What was asked for a ceremony, latest first. */
export async function listAsksFor(tx: Transaction, ceremonyId: string): Promise<Ask[]> {
  return tx.$queryRaw<Ask[]>`${ASKS} WHERE c.id = ${ceremonyId}::uuid ORDER BY a.asked_at DESC, a.id LIMIT ${MOST}`
}

/** What a unit and those below it are asked for and have not answered, of ceremonies to come; `unitId` null: every unit. */
export async function listOpenAsks(tx: Transaction, unitId: string | null, now: Date): Promise<Ask[]> {
  return tx.$queryRaw<Ask[]>`${ASKS}
    WHERE a.answer IS NULL AND c.cancelled_at IS NULL AND c.ends_at > ${now}
      AND ${unitId === null ? Prisma.sql`true` : Prisma.sql`a.unit_id = ANY(${subtree(unitId)})`}
    ORDER BY c.starts_at, a.asked_at, a.id LIMIT ${MOST}`
}

export async function readAsk(tx: Transaction, id: string): Promise<(Ask & { askedById: string }) | null> {
  const rows = await tx.$queryRaw<(Ask & { askedById: string })[]>`
    SELECT found.*, own.asked_by_id::text AS "askedById" FROM (${ASKS} WHERE a.id = ${id}::uuid) found
    JOIN soldier_ask own ON own.id = found.id::uuid`
  return rows[0] ?? null
}

/** Units that an account of a unit can ask: all but its own and those below; without a unit none. */
export async function listUnitsToAsk(
  tx: Transaction,
  ownUnitId: string | null,
): Promise<{ id: string; name: string }[]> {
  if (ownUnitId === null) return []
  return tx.$queryRaw<{ id: string; name: string }[]>`
    SELECT asked.id::text, ${fullName('asked')} AS name FROM unit asked
    WHERE NOT asked.lineage @> ARRAY[${ownUnitId}::uuid]
      AND NOT (SELECT lineage FROM unit WHERE id = ${ownUnitId}::uuid) @> ARRAY[asked.id]
    ORDER BY ${unitOrder('asked')}, asked.id LIMIT ${MOST}`
}

export async function insertAsk(
  tx: Transaction,
  ask: { ceremonyId: string; postId: string; unitId: string; askedById: string; askedAt: Date },
): Promise<string> {
  const { id } = await tx.soldierAsk.create({ data: ask, select: { id: true } })
  return id
}

export async function answerAsk(
  tx: Transaction,
  id: string,
  answered: { answer: 'yes' | 'no' | 'taken back'; word: string; answeredById: string; answeredAt: Date },
): Promise<void> {
  await tx.soldierAsk.update({ where: { id }, data: answered })
}
