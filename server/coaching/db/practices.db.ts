import { soldierInScope } from '../../access/db/scope.db.ts'
import type { PracticeBody } from '../../contract/coaching/practices.ts'
import type { Transaction } from '../../db/client.ts'
import { toDate } from '../../db/dates.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'
import { writtenBy } from './coaching-notes.db.ts'

/** Practice as stored; times in UTC. */
export interface StoredPractice extends PracticeBody {
  readonly id: string
  readonly on: string
  readonly byId: string
  readonly by: string
}

const COLUMNS = Prisma.sql`p.id::text, p.candidate_id::text AS "candidateId", p.standard, p.arm, p.on_day::text AS "on",
  p.started_at AS "startedAt", p.finished_at AS "finishedAt", p.measures, p.by_id::text AS "byId",
  ${writtenBy(Prisma.sql`p.by_id`, Prisma.sql`p.on_day`)} AS by`

/** A grader sees no practice of those they are to judge, whatever else lets them see the candidate. */
const visible = (scope: Scope): Prisma.Sql => soldierInScope({ ...scope, graderId: null }, Prisma.sql`p.candidate_id`)

type Row = Omit<StoredPractice, 'startedAt' | 'finishedAt'> & { startedAt: Date; finishedAt: Date }

const fromRow = (row: Row): StoredPractice => ({
  ...row,
  startedAt: row.startedAt.toISOString(),
  finishedAt: row.finishedAt.toISOString(),
})

/** Stores practice under the id its client gave it. Out: whether it is new; what is there already stays as it is. */
export async function insertPractice(
  tx: Transaction,
  id: string,
  { on, byId, at, startedAt, finishedAt, ...body }: PracticeBody & { on: string; byId: string; at: Date },
): Promise<boolean> {
  const times = { startedAt: new Date(startedAt), finishedAt: new Date(finishedAt) }
  const data = [{ id, ...body, ...times, onDay: toDate(on), byId, storedAt: at }]
  return (await tx.practice.createMany({ data, skipDuplicates: true })).count > 0
}

/** Practice as it is stored, whoever may see it, locked until the transaction ends. */
export async function lockPractice(tx: Transaction, id: string): Promise<StoredPractice | null> {
  const rows = await tx.$queryRaw<Row[]>`SELECT ${COLUMNS} FROM practice p WHERE p.id = ${id}::uuid FOR UPDATE OF p`
  return rows[0] ? fromRow(rows[0]) : null
}

export async function deletePractice(tx: Transaction, id: string): Promise<void> {
  await tx.practice.delete({ where: { id } })
}

/** The latest day on which each of these candidates practised, by a practice sheet or chosen measures. */
export async function readLastPractices(
  tx: Transaction,
  scope: Scope,
  candidateIds: readonly string[],
): Promise<Map<string, string>> {
  const ids = Prisma.sql`${[...candidateIds]}::uuid[]`
  const rows = await tx.$queryRaw<{ candidateId: string; on: string }[]>`
    SELECT candidate_id::text AS "candidateId", max(day)::text AS on FROM (
      SELECT p.candidate_id, p.on_day AS day FROM practice p WHERE p.candidate_id = ANY(${ids}) AND ${visible(scope)}
      UNION ALL SELECT p.candidate_id, p.day FROM sheet p
        WHERE p.candidate_id = ANY(${ids}) AND p.purpose = 'practice' AND ${visible(scope)}) practised
    GROUP BY 1`
  return new Map(rows.map(({ candidateId, on }) => [candidateId, on]))
}

/** A page of a candidate's practice, the latest first. */
export async function listPractices(
  tx: Transaction,
  scope: Scope,
  candidateId: string,
  page: { limit: number; after: { finishedAt: string; id: string } | null },
): Promise<StoredPractice[]> {
  const later = page.after
    ? Prisma.sql`AND (p.finished_at, p.id) < (${page.after.finishedAt}::timestamptz, ${page.after.id}::uuid)`
    : Prisma.empty
  const rows = await tx.$queryRaw<Row[]>`
    SELECT ${COLUMNS} FROM practice p WHERE p.candidate_id = ${candidateId}::uuid AND ${visible(scope)} ${later}
    ORDER BY p.finished_at DESC, p.id DESC LIMIT ${page.limit}`
  return rows.map(fromRow)
}
