import { z } from 'zod'
import { Password } from '../accounts/session.ts'
import { Instant, page, storableText, Uuid } from '../common.ts'

const returnPath = storableText(2000).describe('Where to go afterwards: a path of the pages.')

/** Where the browser goes to sign in. */
export const ProviderAddress = z
  .object({ address: z.string().describe('An address of the provider.') })
  .meta({ id: 'ProviderAddress' })

export const SignOnBody = z
  .strictObject({
    providerId: Uuid,
    returnPath,
    anew: z.boolean().default(false).describe('The provider is to ask who it is, also where it remembers.'),
  })
  .meta({ id: 'SignOnBody' })

const Brought = z.union([z.string(), z.array(z.string())]).optional()

/** What comes back from a provider, in the address; more than is listed may come with it. */
export const SignOnReturn = z.looseObject({
  code: Brought.describe('What the ID token is traded for.'),
  state: Brought.describe('As it was sent.'),
  iss: Brought.describe('The issuer that answers (RFC 9207).'),
  error: Brought.describe('Why nobody was signed in.'),
})

/** The providers that answer just now. */
export const ProvidersAnswering = z.object({ ids: z.array(Uuid) }).meta({ id: 'ProvidersAnswering' })

export const Leave = z
  .object({ address: z.string().nullable().describe('Where the provider ends its own session; null: nowhere.') })
  .meta({ id: 'Leave' })

export const LogoutBody = z.object({ logout_token: z.string().max(20_000) }).meta({ id: 'LogoutBody' })

export const LogoutTaken = z.object({ taken: z.literal(true) }).meta({ id: 'LogoutTaken' })

/** A provider one's own account is, or could be, linked with. */
export const OwnIdentity = z
  .object({
    id: Uuid.nullable().describe('Of the link; null: not linked.'),
    providerId: Uuid,
    name: z.string(),
    linkedAt: Instant.nullable(),
  })
  .meta({ id: 'OwnIdentity' })

export const OwnIdentityList = page(OwnIdentity)
  .extend({ hasPassword: z.boolean().describe('Whether the account can be signed in with a password, too.') })
  .meta({ id: 'OwnIdentityList' })

export const LinkBody = z.strictObject({ providerId: Uuid, password: Password }).meta({ id: 'LinkBody' })

export const UnlinkBody = z.strictObject({ password: Password }).meta({ id: 'UnlinkBody' })

export type ProviderAddress = z.infer<typeof ProviderAddress>
export type SignOnBody = z.infer<typeof SignOnBody>
export type OwnIdentity = z.infer<typeof OwnIdentity>
export type OwnIdentityList = z.infer<typeof OwnIdentityList>
export type LinkBody = z.infer<typeof LinkBody>
export type UnlinkBody = z.infer<typeof UnlinkBody>
