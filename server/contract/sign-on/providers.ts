import { z } from 'zod'
import { ROLES } from '../accounts/session.ts'
import { storableText, Uuid, Words } from '../common.ts'

const Claim = storableText(200).refine((text) => text.trim() !== '', { error: 'Name the claim.' })

const OVER_A_UNIT: readonly string[] = ['leader', 'commander']

export const ClaimRule = z
  .strictObject({
    claim: Claim.describe('The name of a claim, or the way to one inside another, as `realm.groups`.'),
    test: z.enum(['is', 'contains']).describe('is: one value, this one. contains: a list with this in it.'),
    value: storableText(400).refine((text) => text !== '', { error: 'Say what value the claim must have.' }),
    role: z.enum(ROLES),
    unitId: Uuid.nullable().describe('The unit a leader or commander is over; null for any other role.'),
  })
  .refine(({ role, unitId }) => (unitId !== null) === OVER_A_UNIT.includes(role), {
    path: ['unitId'],
    error: 'Choose the unit a leader or commander is over; no other role has one.',
  })
  .meta({ id: 'ClaimRule' })

const Rules = z.array(ClaimRule).max(100, { error: 'At most 100 rules.' })

/** What decides about new accounts. */
const accounts = {
  makesAccounts: z.boolean().describe('Whether somebody without an account gets one at the first sign-in.'),
  rulesEachTime: z
    .boolean()
    .describe('Whether the rules hold at each sign-in of such an account, or at the first only.'),
  makesAdministrators: z.boolean().describe('Whether a rule may make an administrator.'),
  nameClaim: Claim.describe('The claim that new accounts are named by.'),
  soldierClaim: Claim.nullable().describe('The claim that holds the roster number; null: none does.'),
  rules: Rules,
}

const settings = {
  name: Words.max(60, { error: 'At most 60 characters.' }),
  issuer: storableText(400),
  clientId: Words,
  scopes: storableText(400)
    .regex(/^[\x21\x23-\x5b\x5d-\x7e]+( [\x21\x23-\x5b\x5d-\x7e]+)*$/, {
      error: 'Give the scopes with one space between.',
    })
    .refine((text) => text.split(' ').includes('openid'), { error: 'One of the scopes must be openid.' }),
  enabled: z.boolean(),
  ...accounts,
}

export const ProviderBody = z
  .strictObject({
    ...settings,
    clientSecret: storableText(1000)
      .min(1, { error: 'Type the secret, or say that there is none.' })
      .nullable()
      .optional()
      .describe('Left out: the one that is kept stays. Null: the provider asks for none.'),
  })
  .meta({ id: 'ProviderBody' })

export const Provider = z
  .object({
    id: Uuid,
    ...settings,
    hasSecret: z.boolean().describe('Whether a secret is kept; it is told nobody again.'),
    linked: z.int().describe('How many accounts it signs in.'),
    returnAddress: z.string().nullable().describe('Where the provider must send people back to.'),
  })
  .meta({ id: 'Provider' })

export const ProviderList = z
  .object({
    items: z.array(Provider),
    next: z.null(),
    foldsPasswords: z.boolean().describe('Whether name and password stand behind a line to open.'),
    publicAddress: z
      .string()
      .nullable()
      .describe('REVIEWSTAND_ADDRESS; null: it is not set, and nobody can be sent back.'),
  })
  .meta({ id: 'ProviderList' })

export const FoldBody = z.strictObject({ foldsPasswords: z.boolean() }).meta({ id: 'FoldBody' })

/** What was found, one thing after another. */
export const ProviderTest = z
  .object({
    works: z.boolean(),
    findings: z.array(z.object({ kind: z.enum(['good', 'note', 'bad']), says: z.string() })),
  })
  .meta({ id: 'ProviderTest' })

export const TrialBody = z
  .strictObject({
    sample: storableText(20_000).describe('Claims as JSON, or a token (of which only the claims are read).'),
    makesAdministrators: accounts.makesAdministrators,
    nameClaim: accounts.nameClaim,
    soldierClaim: accounts.soldierClaim,
    rules: Rules,
  })
  .meta({ id: 'TrialBody' })

/** What would come of a first sign-in with such claims. */
export const Trial = z
  .object({
    subject: z.string().nullable(),
    name: z.string().nullable().describe('Null: the claim has no name that can be used.'),
    nameTaken: z.boolean(),
    soldierNumber: z.string().nullable().describe('The roster number that was looked for.'),
    soldier: z.string().nullable().describe('The soldier found by it.'),
    soldierTaken: z.boolean().describe('The soldier has an account already.'),
    roles: z.array(z.enum(ROLES)),
    unitId: Uuid.nullable(),
    outcomes: z
      .array(z.enum(['given', 'does-not-fit', 'no-administrators', 'other-unit', 'no-soldier', 'no-unit']))
      .describe('What came of each rule, in order.'),
  })
  .meta({ id: 'Trial' })

export type ClaimRule = z.infer<typeof ClaimRule>
export type ProviderBody = z.infer<typeof ProviderBody>
export type Provider = z.infer<typeof Provider>
export type ProviderList = z.infer<typeof ProviderList>
export type ProviderTest = z.infer<typeof ProviderTest>
export type TrialBody = z.infer<typeof TrialBody>
export type Trial = z.infer<typeof Trial>
