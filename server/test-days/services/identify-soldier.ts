import { notAllowed } from '../../access/services/require.ts'
import type { Context } from '../../context/context.ts'
import type { Identified, IdentifyBody } from '../../contract/test-days/day-list.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { notFound } from '../../errors.ts'
import { findByNumberAndName } from '../db/day-list.db.ts'

/**
 * Who somebody is that a grader tested without a booking. A grader may send a test of anybody, but sees only candidates of
 * their own: so nobody is looked up here whose number and family name are not both known. Not found: one of the two is wrong.
 */
export async function identifySoldier(context: Context, actor: Actor, body: IdentifyBody): Promise<Identified> {
  if (!actor.roles.includes('office') && !actor.roles.includes('grader')) throw notAllowed()
  const found = await findByNumberAndName(context.db, body)
  if (!found) throw notFound('soldier with this roster number and family name')
  return found
}
