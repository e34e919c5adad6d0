import { z } from 'zod'
import { Instant, Page, page, Text, Uuid } from '../common.ts'
import { ACCOUNT_STATES } from './account-states.ts'
import { AccountName, NewPassword, Password, ROLES } from './session.ts'

const Roles = z
  .array(z.enum(ROLES))
  .min(1, { error: 'Give at least one role.' })
  .max(ROLES.length, { error: 'Give each role once.' })
  .refine((roles) => new Set(roles).size === roles.length, { error: 'Give each role once.' })

const reach = {
  roles: Roles,
  soldierId: Uuid.nullable().describe('The soldier whose account it is; sponsor, grader and soldier need one.'),
  unitId: Uuid.nullable().describe('The unit at the top of what it sees; leader and commander need one.'),
}

/** A new account; whoever gets the link chooses its password. */
export const InvitationBody = z.strictObject({ name: AccountName, ...reach }).meta({ id: 'InvitationBody' })

export const AccountBody = z.strictObject(reach).meta({ id: 'AccountBody' })

export const DisabledBody = z.strictObject({ disabled: z.boolean() }).meta({ id: 'DisabledBody' })

/** A one-time link, told this once: `/welcome#` and the token. */
export const InvitationLink = z
  .object({ id: Uuid.describe('The account.'), token: z.string(), expiresAt: Instant })
  .meta({ id: 'InvitationLink' })

export const Account = z
  .object({
    id: Uuid,
    name: z.string(),
    ...reach,
    soldier: z.string().nullable().describe('Roster number and name of the soldier.'),
    state: z.enum(ACCOUNT_STATES),
    hasFactor: z.boolean().describe('Whether signing in takes a second factor.'),
    linkedWith: z.array(z.string()).describe('The providers of single sign-on that it is linked with, by name.'),
    linkExpiresAt: Instant.nullable().describe('Until when a link sent to it can be used; null: there is none.'),
    lastSeenAt: Instant.nullable().describe('When it was last used, as far as its sessions still tell.'),
  })
  .meta({ id: 'Account' })

export const AccountPage = page(Account)

export const AccountQuery = z.strictObject({
  ...Page,
  q: Text.optional().describe('How the name begins.'),
  state: z.enum(ACCOUNT_STATES).optional(),
})

export const OwnSession = z
  .object({
    id: Uuid,
    createdAt: Instant,
    seenAt: Instant.describe('Last use, to the minute.'),
    network: z.string().describe('From where, no finer than the network.'),
    device: z.string(),
    isThisOne: z.boolean(),
  })
  .meta({ id: 'OwnSession' })

export const OwnSessionList = page(OwnSession)

export const PasswordBody = z.strictObject({ current: Password, next: NewPassword }).meta({ id: 'PasswordBody' })

export const PasswordChanged = z
  .object({ ended: z.int().describe('How many other sessions were ended.') })
  .meta({ id: 'PasswordChanged' })

const LinkToken = z.string().max(200)

export const WelcomeLookBody = z.strictObject({ token: LinkToken }).meta({ id: 'WelcomeLookBody' })

/** Whom a link is for. */
export const Welcome = z.object({ name: z.string(), expiresAt: Instant }).meta({ id: 'Welcome' })

export const WelcomeBody = z.strictObject({ token: LinkToken, password: NewPassword }).meta({ id: 'WelcomeBody' })

export type InvitationBody = z.infer<typeof InvitationBody>
export type AccountBody = z.infer<typeof AccountBody>
export type InvitationLink = z.infer<typeof InvitationLink>
export type Account = z.infer<typeof Account>
export type AccountQuery = z.infer<typeof AccountQuery>
export type OwnSession = z.infer<typeof OwnSession>
export type PasswordBody = z.infer<typeof PasswordBody>
export type Welcome = z.infer<typeof Welcome>
export type WelcomeBody = z.infer<typeof WelcomeBody>
