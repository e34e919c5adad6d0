import type { Context } from '../../context/context.ts'
import type { Transaction } from '../../db/client.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { can, type Permission } from '../../domain/access/permissions.ts'
import type { Scope } from '../../domain/access/scope.ts'
import { AppError, invalid } from '../../errors.ts'
import { shareUnit, unitsInScope } from '../db/units.db.ts'

/** Refuses what none of the account's roles may do. */
export function requireAction(actor: Actor, permission: Permission): void {
  if (!can(actor, permission)) throw notAllowed()
}

export const notAllowed = (): AppError =>
  new AppError(
    'not-allowed',
    'not-allowed',
    'Your account may not do this. Ask the training office, or an administrator for another role.',
  )

/** Refuses to answer about a unit that is not there or out of scope, rather than with an empty list. */
export async function requireUnitInScope(context: Context, scope: Scope, unitId: string | undefined): Promise<void> {
  if (unitId !== undefined && (await unitsInScope(context.db, scope, [unitId])).length === 0) throw unknownUnit()
}

/** Refuses a unit that is closed on a day; until the transaction ends nobody closes it. */
export async function requireUnitOpen(tx: Transaction, unitId: string, day: string): Promise<void> {
  const closed = await shareUnit(tx, unitId)
  if (closed && day >= closed.from) throw invalid('unit-closed', '/unitId', formatClosed(closed))
}

export const formatClosed = ({ name, from }: { readonly name: string; readonly from: string }): string =>
  `${name} is closed from ${from} on. Choose another unit, or open it again under Units.`

/** There is no such unit, or not for this account. */
export function unknownUnit(): AppError {
  const detail = 'There is no such unit; take its id from /api/units.'
  return new AppError('not-found', 'unknown-unit', detail, [{ pointer: 'unitId', rule: 'unknown-unit', detail }])
}
