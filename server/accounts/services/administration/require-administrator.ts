import type { Actor } from '../../../domain/access/actor.ts'
import { can } from '../../../domain/access/permissions.ts'
import { notFound } from '../../../errors.ts'

/** For everybody but administrators there are no accounts here to be found. */
export function requireAdministrator(actor: Actor): void {
  if (!can(actor, 'manage-accounts')) throw notFound('address')
}
