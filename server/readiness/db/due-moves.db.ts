import type { Transaction } from '../../db/client.ts'
import { toDate } from '../../db/dates.ts'
import { Prisma } from '../../db/generated/client.ts'

/**
 * SQL that joins the due day which the office has moved an open retest to, as `moved` (due, reason, moved_at): the last
 * one for the same NO-GO. In: the alias of the retest span.
 */
export const joinMovedDue = (span: string): Prisma.Sql => {
  const r = Prisma.raw(span)
  return Prisma.sql`LEFT JOIN LATERAL (SELECT m.due, m.reason, m.moved_at FROM due_move m
    WHERE m.soldier_id = ${r}.soldier_id AND m.certification_id = ${r}.certification_id AND m.standard = ${r}.standard
      AND m.on_day = ${r}.on_day ORDER BY m.entry DESC LIMIT 1) moved ON true`
}

export interface OpenRetestDue {
  readonly on: string
  readonly earliest: string
  /** By the rules. */
  readonly ruleDue: string
  /** As it holds now. */
  readonly due: string
}

/** The open retest of a soldier on a day; null where there is none. */
export async function readOpenRetest(
  tx: Transaction,
  soldierId: string,
  certificationId: string,
  standard: string,
  day: string,
): Promise<OpenRetestDue | null> {
  const rows = await tx.$queryRaw<OpenRetestDue[]>`
    SELECT r.on_day::text AS "on", r.earliest::text, r.due::text AS "ruleDue", COALESCE(moved.due, r.due)::text AS due
    FROM retest_span r ${joinMovedDue('r')}
    WHERE r.soldier_id = ${soldierId}::uuid AND r.certification_id = ${certificationId}::uuid
      AND r.standard = ${standard} AND daterange(r.from_day, r.through_day, '[]') @> ${day}::date`
  return rows[0] ?? null
}

export interface NewDueMove {
  readonly soldierId: string
  readonly certificationId: string
  readonly standard: string
  readonly on: string
  readonly due: string
  readonly reason: string
  readonly movedAt: Date
  readonly movedById: string
}

export async function insertDueMove(tx: Transaction, { on, due, ...move }: NewDueMove): Promise<string> {
  const data = { ...move, onDay: toDate(on), due: toDate(due) }
  return (await tx.dueMove.create({ data, select: { id: true } })).id
}

export interface MovedDue {
  readonly soldierId: string
  readonly certification: string
  readonly standard: string
  readonly on: string
  readonly due: string
}

/** The due days moved of these soldiers, the last one for each NO-GO. */
export async function readMovedDue(tx: Transaction, soldierIds: readonly string[]): Promise<MovedDue[]> {
  return tx.$queryRaw<MovedDue[]>`
    SELECT DISTINCT ON (m.soldier_id, m.certification_id, m.standard, m.on_day) m.soldier_id::text AS "soldierId",
      c.code AS certification, m.standard, m.on_day::text AS "on", m.due::text
    FROM due_move m JOIN certification c ON c.id = m.certification_id
    WHERE m.soldier_id = ANY(${[...soldierIds]}::uuid[])
    ORDER BY m.soldier_id, m.certification_id, m.standard, m.on_day, m.entry DESC`
}
