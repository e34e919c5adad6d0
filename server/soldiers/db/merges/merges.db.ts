import type { Merge } from '../../../contract/soldiers/merges.ts'
import type { Transaction } from '../../../db/client.ts'
import { Prisma } from '../../../db/generated/client.ts'
import type { StoodBefore } from '../../../domain/assessment/types.ts'
import type { AdoptedChange } from '../../../domain/people/adopt-changes.ts'
import type { Moved, PutAside } from './merge-moves.db.ts'

/** The row of the soldier given up, and whether the kept one, whose height was unknown, has its height. */
export interface GivenUp {
  readonly height_cm: number | null
  readonly heightLent: boolean
  /** Its other columns. */
  readonly [column: string]: unknown
}

/** All it takes to undo a merge. */
export interface MergeTraces {
  /** Empty once the personal data of the kept soldier was removed. */
  readonly away: Partial<GivenUp>
  readonly moved: readonly Moved[]
  readonly putAside: readonly PutAside[]
  /** Ids of changes. */
  readonly adopted: readonly number[]
  readonly judged: readonly StoodBefore[]
}

export async function insertMerge(
  tx: Transaction,
  merge: { keptId: string; awayId: string; at: Date; byId: string | null; reason: string },
  { away, moved, putAside, adopted, judged }: MergeTraces,
): Promise<string> {
  const json = (value: unknown) => JSON.parse(JSON.stringify(value)) as Prisma.InputJsonValue
  const traces = { away: json(away), moved: json(moved), putAside: json(putAside), adopted: json(adopted) }
  const { id } = await tx.soldierMerge.create({
    data: { ...merge, ...traces, judged: json(judged) },
    select: { id: true },
  })
  return id
}

/** A merge that is not undone, locked; null where there is none. `later`: the kept soldier was merged again since. */
export async function lockMerge(
  tx: Transaction,
  id: string,
): Promise<(MergeTraces & { keptId: string; awayId: string; at: Date; later: boolean }) | null> {
  const rows = await tx.$queryRaw<(MergeTraces & { keptId: string; awayId: string; at: Date; later: boolean })[]>`
    SELECT m.kept_id::text AS "keptId", m.away_id::text AS "awayId", m.at, m.away, m.moved, m.put_aside AS "putAside",
      m.adopted, m.judged,
      EXISTS (SELECT FROM soldier_merge x WHERE x.kept_id = m.kept_id AND x.undone_at IS NULL AND x.entry > m.entry) AS later
    FROM soldier_merge m WHERE m.id = ${id}::uuid AND m.undone_at IS NULL FOR UPDATE OF m`
  return rows[0] ?? null
}

/** Marks a merge as undone and forgets what was kept of the other entry. */
export async function closeMerge(
  tx: Transaction,
  id: string,
  undone: { undoneAt: Date; undoneById: string | null; undoReason: string },
): Promise<void> {
  const nothing = { away: {}, moved: [], putAside: [], adopted: [], judged: [] }
  await tx.soldierMerge.update({ where: { id }, data: { ...undone, ...nothing } })
}

/** Whom ids lead to that were given up in a merge, by the id given up. */
export async function readPresentIds(tx: Transaction, ids: readonly string[]): Promise<Map<string, string>> {
  const rows = await tx.$queryRaw<{ awayId: string; keptId: string }[]>`
    SELECT away_id::text AS "awayId", kept_id::text AS "keptId" FROM soldier_merge
    WHERE away_id = ANY(${[...new Set(ids)]}::uuid[]) AND undone_at IS NULL`
  return new Map(rows.map(({ awayId, keptId }) => [awayId, keptId]))
}

/** Gives a soldier of unknown height another's. Out: whether there was one to give. */
export async function lendHeight(tx: Transaction, keptId: string, heightCm: number | null): Promise<boolean> {
  if (heightCm === null) return false
  return (await tx.soldier.updateMany({ where: { id: keptId, heightCm: null }, data: { heightCm } })).count > 0
}

/** The reverse; another height entered since stays. */
export async function takeHeightBack(tx: Transaction, keptId: string, heightCm: number): Promise<void> {
  await tx.soldier.updateMany({ where: { id: keptId, heightCm }, data: { heightCm: null } })
}

/** Gives a soldier changes after all others. Out: their ids. */
export async function adopt(tx: Transaction, soldierId: string, changes: readonly AdoptedChange[]): Promise<number[]> {
  const ids: number[] = []
  for (const { from, grade, arms, unitId, left } of changes) {
    const { id } = await tx.soldierChange.create({
      data: {
        soldierId,
        fromDay: new Date(`${from}T00:00:00Z`),
        grade,
        arms: arms === null ? Prisma.DbNull : [...arms],
        unitId,
        left,
      },
      select: { id: true },
    })
    ids.push(Number(id))
  }
  return ids
}

const UTC = 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"'

/** A page of merges, the latest first; those undone too. */
export async function listMerges(
  tx: Transaction,
  soldierId: string | undefined,
  page: { limit: number; after: { at: string; id: string } | null },
): Promise<Merge[]> {
  const after = page.after
    ? Prisma.sql`AND (m.at, m.id) < (${page.after.at}::timestamptz, ${page.after.id}::uuid)`
    : Prisma.empty
  return tx.$queryRaw<Merge[]>`
    SELECT m.id::text, m.kept_id::text AS "keptId", s.family_name || ', ' || s.given_name AS "keptName",
      m.away_id::text AS "awayId",
      m.away ->> 'roster_number' || ' ' || (m.away ->> 'family_name') || ', ' || (m.away ->> 'given_name') AS away,
      to_char(m.at AT TIME ZONE 'UTC', ${UTC}) AS at, by.name AS by, m.reason,
      to_char(m.undone_at AT TIME ZONE 'UTC', ${UTC}) AS "undoneAt", m.undo_reason AS "undoReason"
    FROM soldier_merge m JOIN soldier s ON s.id = m.kept_id LEFT JOIN account by ON by.id = m.by_id
    WHERE (${soldierId === undefined} OR m.kept_id = ${soldierId ?? null}::uuid) ${after}
    ORDER BY m.at DESC, m.id DESC LIMIT ${page.limit}`
}
