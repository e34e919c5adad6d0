import { sheetInScope } from '../../access/db/scope.db.ts'
import type { AmendmentProposal } from '../../contract/sheets/amendments.ts'
import type { SheetBody } from '../../contract/sheets/sheets.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'

export interface NewProposal {
  readonly sheetId: string
  readonly revision: number
  readonly body: SheetBody
  readonly outcomeBefore: string
  readonly outcomeAfter: string
  readonly reason: string
  readonly proposedById: string
  readonly proposedAt: Date
}

export async function insertProposal(tx: Transaction, proposal: NewProposal): Promise<string> {
  const { id } = await tx.amendmentProposal.create({
    data: { ...proposal, body: { ...proposal.body } },
    select: { id: true },
  })
  return id
}

/** The sheet of a proposal; null where there is no such proposal. */
export async function sheetOfProposal(tx: Transaction, id: string): Promise<string | null> {
  const row = await tx.amendmentProposal.findUnique({ where: { id }, select: { sheetId: true } })
  return row?.sheetId ?? null
}

export interface StoredProposal {
  readonly sheetId: string
  readonly revision: number
  readonly body: SheetBody
  readonly reason: string
  readonly proposedById: string
  readonly decision: string | null
}

/** A proposal, locked until the transaction ends; null where there is none. */
export async function lockProposal(tx: Transaction, id: string): Promise<StoredProposal | null> {
  const rows = await tx.$queryRaw<StoredProposal[]>`
    SELECT sheet_id::text AS "sheetId", revision, body, reason, proposed_by_id::text AS "proposedById", decision
    FROM amendment_proposal WHERE id = ${id}::uuid FOR UPDATE`
  return rows[0] ?? null
}

export async function closeProposal(
  tx: Transaction,
  id: string,
  decided: { decision: 'confirm' | 'refuse'; decisionReason: string; decidedById: string; decidedAt: Date },
): Promise<void> {
  await tx.amendmentProposal.update({ where: { id }, data: decided })
}

/** A page of proposals, oldest first: the open ones or the decided ones. */
export async function listProposals(
  tx: Transaction,
  scope: Scope,
  filter: { open: boolean; sheetId?: string | undefined },
  page: { limit: number; after: { proposedAt: string; id: string } | null },
): Promise<AmendmentProposal[]> {
  const after = page.after
    ? Prisma.sql`AND (p.proposed_at, p.id) > (${page.after.proposedAt}::timestamptz, ${page.after.id}::uuid)`
    : Prisma.empty
  return tx.$queryRaw<AmendmentProposal[]>`
    SELECT p.id::text, p.sheet_id::text AS "sheetId", p.revision, p.reason, by.name AS "proposedBy",
      p.outcome_before AS "outcomeBefore", p.outcome_after AS "outcomeAfter",
      to_char(p.proposed_at AT TIME ZONE 'UTC', ${UTC}) AS "proposedAt", p.decision, decider.name AS "decidedBy",
      to_char(p.decided_at AT TIME ZONE 'UTC', ${UTC}) AS "decidedAt", p.decision_reason AS "decisionReason", p.body,
      r.body AS before
    FROM amendment_proposal p JOIN sheet s ON s.id = p.sheet_id
    JOIN sheet_revision r ON r.sheet_id = p.sheet_id AND r.number = p.revision JOIN account by ON by.id = p.proposed_by_id
    LEFT JOIN account decider ON decider.id = p.decided_by_id
    WHERE (p.decision IS NULL) = ${filter.open} AND (${filter.sheetId === undefined} OR s.id = ${filter.sheetId ?? null}::uuid)
      AND ${sheetInScope(scope, Prisma.sql`s.candidate_id`, Prisma.sql`s.grader_id`)} ${after}
    ORDER BY p.proposed_at, p.id LIMIT ${page.limit}`
}

const UTC = 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"'
