import type { Context } from '../../context/context.ts'
import { today } from '../../context/today.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { rosterScopeOf, type Scope, scopeOf } from '../../domain/access/scope.ts'
import { dayInZone } from '../../domain/calendar/day-in-zone.ts'

/** Whose grades this account may see now. */
export async function scopeFor(context: Context, actor: Actor): Promise<Scope> {
  return scopeOf(actor, await dayOfScope(context, actor))
}

/** Whose roster entries this account may see now. */
export async function rosterScopeFor(context: Context, actor: Actor): Promise<Scope> {
  return rosterScopeOf(actor, await dayOfScope(context, actor))
}

/** The office sees everybody on any day, so its unit's zone need not be looked up. */
async function dayOfScope(context: Context, actor: Actor): Promise<string> {
  return actor.roles.includes('office') && !actor.token?.unitId
    ? dayInZone(context.clock().getTime(), 'UTC')
    : today(context)
}
