import { requireAction } from '../../../access/services/require.ts'
import { scopeFor } from '../../../access/services/scope-for.ts'
import type { Context } from '../../../context/context.ts'
import { fromCursor, toPage } from '../../../context/cursor.ts'
import type { AmendmentProposal } from '../../../contract/sheets/amendments.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { asSuperior } from '../../../domain/access/scope.ts'
import { listProposals } from '../../db/amendments.db.ts'

/** Proposed amendments, oldest first: those that wait, or those decided. */
export async function findAmendments(
  context: Context,
  actor: Actor,
  query: { open: 'true' | 'false'; limit: number; after?: string | undefined },
): Promise<{ items: AmendmentProposal[]; next: string | null }> {
  requireAction(actor, 'confirm-amendments')
  const key = fromCursor(query.after, ['instant', 'uuid'])
  const after = key && { proposedAt: String(key[0]), id: String(key[1]) }
  const scope = asSuperior(await scopeFor(context, actor))
  const rows = await listProposals(
    context.db,
    scope,
    { open: query.open === 'true' },
    { limit: query.limit + 1, after },
  )
  return toPage(
    rows,
    query.limit,
    ({ proposedAt, id }) => [proposedAt, id],
    (proposal) => proposal,
  )
}
