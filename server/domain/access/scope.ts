import type { PlainDate } from '../calendar/plain-date.ts'
import type { Actor } from './actor.ts'

/**
 * Whose records somebody may see. Every question to the data layer about people takes one, so that none can be asked
 * without saying for whom.
 */
export interface Scope {
  /** Everybody's. */
  readonly everyone: boolean
  /** Of the soldiers who are in this unit or below it. */
  readonly unitId: string | null
  /** Their own. */
  readonly selfId: string | null
  /** Of the candidates whom this soldier sponsors today. */
  readonly sponsorId: string | null
  /** Of the candidates booked with this grader, and the sheets they graded. */
  readonly graderId: string | null
  /** Of all these only those in this unit or below it; left out or null: no such limit. */
  readonly within?: string | null
  readonly today: PlainDate
}

/**
 * Whose grades an account may see: the office everybody's, leaders and commanders their subtree's, a sponsor the present
 * candidates', a grader those booked with them, and every soldier their own. An administrator sees no grades.
 */
export function scopeOf(actor: Actor, today: PlainDate): Scope {
  const has = (role: Actor['roles'][number]) => actor.roles.includes(role)
  const within = actor.token?.unitId ?? null
  const led = has('leader') || has('commander') ? actor.unitId : null
  return {
    everyone: has('office') && within === null,
    unitId: within !== null && (has('office') || led !== null) ? within : led,
    within,
    selfId: actor.soldierId,
    sponsorId: has('sponsor') ? actor.soldierId : null,
    graderId: has('grader') ? actor.soldierId : null,
    today,
  }
}

/** The part of a scope that comes with the office or with leading a unit, not with being a soldier, sponsor or grader. */
export const asSuperior = (scope: Scope): Scope => ({ ...scope, selfId: null, sponsorId: null, graderId: null })

/** Whose roster entries an account may see: as grades, and all for the administrator, who gives accounts to soldiers. */
export function rosterScopeOf(actor: Actor, today: PlainDate): Scope {
  const scope = scopeOf(actor, today)
  return actor.roles.includes('administrator') && !scope.within ? { ...scope, everyone: true } : scope
}

/** The soldiers whom one may name: those of one's unit, not candidates one only coaches or grades. */
export const namingScope = ({ everyone, unitId, within, today }: Scope): Scope => ({
  everyone,
  unitId,
  within: within ?? null,
  today,
  selfId: null,
  sponsorId: null,
  graderId: null,
})
