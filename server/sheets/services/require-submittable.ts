import { notAllowed } from '../../access/services/require.ts'
import type { SheetBody } from '../../contract/sheets/sheets.ts'
import type { Transaction } from '../../db/client.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { canSubmit } from '../../domain/access/permissions.ts'
import type { Scope } from '../../domain/access/scope.ts'
import { invalid } from '../../errors.ts'
import { soldiersInScope } from '../../soldiers/db/roster.db.ts'

/**
 * Refuses a sheet that this account may not send. A grader may send a test of anybody, since a test that took place is
 * never lost; who only coaches sends practice of their present candidates. A token for one unit sends sheets of its soldiers
 * alone. What a sheet duplicates is for the office to say.
 */
export async function requireSubmittable(tx: Transaction, actor: Actor, scope: Scope, body: SheetBody): Promise<void> {
  if (!canSubmit(actor, body)) throw notAllowed()
  if (body.duplicateOf !== undefined) {
    const detail = 'Send the sheet without it. The training office then sets it aside by an amendment.'
    throw invalid('duplicate-by-amendment', '/duplicateOf', detail)
  }
  if (!scope.within && (actor.roles.includes('office') || actor.roles.includes('grader'))) return
  if ((await soldiersInScope(tx, scope, [body.candidateId])).length > 0) return
  const whom = scope.within ? 'Nobody in the unit of this token' : 'None of your present candidates'
  throw invalid('unknown-person', '/candidateId', `${whom} has this id.`)
}
