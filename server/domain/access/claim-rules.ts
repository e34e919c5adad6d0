import type { Role } from './actor.ts'

/** "If the claim is, or contains, the value, then this role, over this unit." */
export interface ClaimRule {
  /** The name of a claim, or the way to one inside another, as `realm.groups`. */
  readonly claim: string
  /** `is`: the claim is one value, this one. `contains`: it is a list, and this is in it. */
  readonly test: 'is' | 'contains'
  /** As the provider writes it, to the letter; numbers and true or false as JSON writes them. */
  readonly value: string
  readonly role: Role
  /** For leaders and commanders, and nobody else. */
  readonly unitId: string | null
}

/** What came of a rule: the role is given; it does not fit; it would make an administrator; it would lead a second unit. */
export type RuleOutcome = 'given' | 'does-not-fit' | 'no-administrators' | 'other-unit'

/** What the rules make of somebody's claims. */
export interface GivenByRules {
  /** In the order in which they were first given, each once. */
  readonly roles: readonly Role[]
  /** Null where none of the roles is over a unit. */
  readonly unitId: string | null
  /** One for each rule. */
  readonly outcomes: readonly RuleOutcome[]
}

export type Claims = Readonly<Record<string, unknown>>

/**
 * Goes through the rules from the first to the last. All that fit give their role; an account leads one unit, so the first
 * that gives one settles it, and a later one for another unit gives nothing.
 * In: the rules, the claims as a provider signed them, and whether a rule may make an administrator. Out: what they give.
 */
export function applyClaimRules(
  rules: readonly ClaimRule[],
  claims: Claims,
  makesAdministrators: boolean,
): GivenByRules {
  const roles = new Set<Role>()
  let unitId: string | null = null
  const outcomes = rules.map((rule): RuleOutcome => {
    if (!fits(rule, claimAt(claims, rule.claim))) return 'does-not-fit'
    if (rule.role === 'administrator' && !makesAdministrators) return 'no-administrators'
    if (rule.unitId !== null && unitId !== null && rule.unitId !== unitId) return 'other-unit'
    unitId ??= rule.unitId
    roles.add(rule.role)
    return 'given'
  })
  return { roles: [...roles], unitId, outcomes }
}

/** A claim that is one text, number or truth value, as text; null where it is anything else, blank or not there. */
export function textClaim(claims: Claims, name: string): string | null {
  const text = asText(claimAt(claims, name))
  return text === null || text.trim() === '' ? null : text
}

function fits({ test, value }: ClaimRule, claim: unknown): boolean {
  return test === 'is' ? asText(claim) === value : Array.isArray(claim) && claim.some((each) => asText(each) === value)
}

const asText = (value: unknown): string | null =>
  typeof value === 'string' ? value : typeof value === 'number' || typeof value === 'boolean' ? String(value) : null

/** The claim of that very name, dots and all, before the way into another. */
function claimAt(claims: Claims, name: string): unknown {
  if (Object.hasOwn(claims, name)) return claims[name]
  return name.split('.').reduce<unknown>((within, part) => {
    if (typeof within !== 'object' || within === null || Array.isArray(within)) return undefined
    return Object.hasOwn(within, part) ? (within as Claims)[part] : undefined
  }, claims)
}
