import { sheetInScope } from '../../access/db/scope.db.ts'
import type { Appeal } from '../../contract/sheets/appeals.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'

export async function insertAppeal(
  tx: Transaction,
  appeal: { sheetId: string; reason: string; appealedById: string; appealedAt: Date },
): Promise<string> {
  const { id } = await tx.appeal.create({ data: appeal, select: { id: true } })
  return id
}

export interface AppealedSheet {
  readonly candidateId: string
  readonly sponsorId: string | null
  readonly graderId: string
  /** When the content in force was stored. */
  readonly revisedAt: Date
}

/** The people and the age of a sheet in scope; null where there is none. */
export async function readAppealedSheet(tx: Transaction, scope: Scope, id: string): Promise<AppealedSheet | null> {
  const rows = await tx.$queryRaw<AppealedSheet[]>`
    SELECT s.candidate_id::text AS "candidateId", s.sponsor_id::text AS "sponsorId", s.grader_id::text AS "graderId",
      s.revised_at AS "revisedAt"
    FROM sheet s WHERE s.id = ${id}::uuid AND s.purpose = 'test'
      AND ${sheetInScope(scope, Prisma.sql`s.candidate_id`, Prisma.sql`s.grader_id`)}`
  return rows[0] ?? null
}

/** An appeal, locked until the transaction ends; null where there is none. */
export async function lockAppeal(
  tx: Transaction,
  id: string,
): Promise<{ sheetId: string; appealedById: string; decision: string | null } | null> {
  const rows = await tx.$queryRaw<{ sheetId: string; appealedById: string; decision: string | null }[]>`
    SELECT sheet_id::text AS "sheetId", appealed_by_id::text AS "appealedById", decision
    FROM appeal WHERE id = ${id}::uuid FOR UPDATE`
  return rows[0] ?? null
}

export async function closeAppeal(
  tx: Transaction,
  id: string,
  decided: { decision: 'uphold' | 'dismiss'; decisionReason: string; decidedById: string; decidedAt: Date },
): Promise<void> {
  await tx.appeal.update({ where: { id }, data: decided })
}

/** A page of appeals in scope, oldest first: the open ones, the decided ones, or all of one sheet. */
export async function listAppeals(
  tx: Transaction,
  scope: Scope,
  filter: { open?: boolean | undefined; sheetId?: string | undefined },
  page: { limit: number; after: { appealedAt: string; id: string } | null },
): Promise<Appeal[]> {
  const conditions = [sheetInScope(scope, Prisma.sql`s.candidate_id`, Prisma.sql`s.grader_id`)]
  if (filter.open !== undefined) conditions.push(Prisma.sql`(a.decision IS NULL) = ${filter.open}`)
  if (filter.sheetId) conditions.push(Prisma.sql`s.id = ${filter.sheetId}::uuid`)
  if (page.after) {
    conditions.push(Prisma.sql`(a.appealed_at, a.id) > (${page.after.appealedAt}::timestamptz, ${page.after.id}::uuid)`)
  }
  return tx.$queryRaw<Appeal[]>`
    SELECT a.id::text, a.sheet_id::text AS "sheetId", a.reason, by.name AS "appealedBy",
      to_char(a.appealed_at AT TIME ZONE 'UTC', ${UTC}) AS "appealedAt", a.decision, decider.name AS "decidedBy",
      to_char(a.decided_at AT TIME ZONE 'UTC', ${UTC}) AS "decidedAt", a.decision_reason AS "decisionReason"
    FROM appeal a JOIN sheet s ON s.id = a.sheet_id JOIN account by ON by.id = a.appealed_by_id
    LEFT JOIN account decider ON decider.id = a.decided_by_id
    WHERE ${Prisma.join(conditions, ' AND ')} ORDER BY a.appealed_at, a.id LIMIT ${page.limit}`
}

const UTC = 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"'
