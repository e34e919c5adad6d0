import type { ClaimRule, Trial } from '#contract/sign-on/providers.ts'
import { listRoles } from '../../domain/accounts/roles.ts'

type UnitName = (id: string | null) => string | null

/** What would come of a first sign-in with such claims, in sentences. */
export function formatTrial(trial: Trial, unitName: UnitName): string[] {
  return [formatAccount(trial, unitName), ...formatSoldier(trial), ...formatName(trial)]
}

function formatAccount({ name, roles, unitId, nameTaken, soldierTaken }: Trial, unitName: UnitName): string {
  if (roles.length === 0) return 'No account would be made: no rule gives a role.'
  const over = unitId ? `, over ${unitName(unitId)}` : ''
  const what = `${listRoles(roles)}${over}`
  if (name === null || nameTaken || soldierTaken) return `No account would be made. The rules would give: ${what}.`
  return `An account ${name} would be made, with: ${what}.`
}

function formatSoldier({ soldierNumber, soldier, soldierTaken }: Trial): string[] {
  if (soldierNumber === null) return []
  if (soldier === null) return [`Nobody on the roster has the number ${soldierNumber}.`]
  return [soldierTaken ? `${soldier} has an account already; they link that one.` : `It would belong to ${soldier}.`]
}

function formatName({ name, nameTaken, subject }: Trial): string[] {
  const said: string[] = []
  if (name === null) said.push('The claim with the name is missing, or holds no name an account could have.')
  if (nameTaken)
    said.push(`There is an account ${name}, or one that looks like it. Its owner links it under My account.`)
  if (subject === null) said.push('The sample has no sub, which every token has.')
  return said
}

/** What came of one rule. */
export function formatOutcome(outcome: Trial['outcomes'][number], rule: ClaimRule, unitName: UnitName): string {
  const role = listRoles([rule.role]).toLowerCase()
  switch (outcome) {
    case 'given':
      return `fits, and gives ${role}${rule.unitId ? ` over ${unitName(rule.unitId)}` : ''}.`
    case 'does-not-fit':
      return `does not fit: ${rule.claim} ${rule.test === 'is' ? 'is not' : 'is no list that contains'} “${rule.value}”.`
    case 'no-administrators':
      return 'fits, but a rule of this provider may make no administrator.'
    case 'other-unit':
      return `fits, but a rule above gave another unit, and an account leads one.`
    case 'no-soldier':
      return `fits, but ${role} needs a soldier on the roster, and none was found for it.`
    case 'no-unit':
      return 'names a unit that is not there any more.'
  }
}
