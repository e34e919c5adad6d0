import { z } from 'zod'
import { Day, Instant, Reason, Uuid } from '../common.ts'
import { AccountName, Password, ROLES } from './session.ts'

const Base64Url = z.string().regex(/^[\w-]+$/, { error: 'This is not base64url.' })

/** Six digits of an authenticator app, or a recovery code, as somebody types them. */
const Code = z.string().max(60, { error: 'A code has at most 12 characters.' })

const Transports = z.array(z.enum(['ble', 'cable', 'hybrid', 'internal', 'nfc', 'smart-card', 'usb'])).max(7)

/** What a browser answers for a passkey that signed (WebAuthn, AuthenticatorAssertionResponse). */
const PasskeyProof = z
  .strictObject({
    id: Base64Url.max(1400),
    clientDataJSON: Base64Url.max(4000),
    authenticatorData: Base64Url.max(2000),
    signature: Base64Url.max(2000),
  })
  .meta({ id: 'PasskeyProof' })

/** The second step of a sign-in: a code or a passkey. */
export const FactorBody = z
  .union([z.strictObject({ code: Code }), z.strictObject({ passkey: PasskeyProof })])
  .meta({ id: 'FactorBody' })

/** With what an account proves once more who it is; the password only where it has no second factor. */
export const ConfirmationBody = z
  .union([
    z.strictObject({ code: Code }),
    z.strictObject({ passkey: PasskeyProof }),
    z.strictObject({ password: Password }),
  ])
  .meta({ id: 'ConfirmationBody' })

export const PasskeySignInBody = z.strictObject({ passkey: PasskeyProof }).meta({ id: 'PasskeySignInBody' })

const factorWays = {
  app: z.boolean().describe('A code of the authenticator app.'),
  passkey: z.boolean(),
  recoveryCodes: z.int().describe('How many recovery codes are left.'),
}

/** The password was right; the second factor is still to come. */
export const FactorAsked = z
  .object({ name: z.string(), ...factorWays, expiresAt: Instant.describe('Until when it can be given.') })
  .meta({ id: 'FactorAsked' })

/** With what one can confirm who one is, and until when that holds. */
export const Confirmation = z
  .object({ ...factorWays, password: z.boolean(), confirmedUntil: Instant.nullable() })
  .meta({ id: 'Confirmation' })

const Credential = z.object({
  id: z.string(),
  type: z.literal('public-key'),
  transports: z.array(z.string()).optional(),
})

/** What a browser is to ask a passkey (WebAuthn, PublicKeyCredentialRequestOptionsJSON). */
export const PasskeyRequest = z
  .object({
    challenge: z.string(),
    rpId: z.string(),
    timeout: z.int(),
    userVerification: z.enum(['required', 'preferred']),
    allowCredentials: z.array(Credential),
  })
  .meta({ id: 'PasskeyRequest' })

/** What a browser is to make a passkey of (WebAuthn, PublicKeyCredentialCreationOptionsJSON). */
export const PasskeyCreation = z
  .object({
    challenge: z.string(),
    rp: z.object({ id: z.string(), name: z.string() }),
    user: z.object({ id: z.string(), name: z.string(), displayName: z.string() }),
    pubKeyCredParams: z.array(z.object({ alg: z.int(), type: z.literal('public-key') })),
    timeout: z.int(),
    attestation: z.literal('none'),
    excludeCredentials: z.array(Credential),
    authenticatorSelection: z.object({ residentKey: z.literal('preferred'), userVerification: z.literal('preferred') }),
  })
  .meta({ id: 'PasskeyCreation' })

export const PasskeyBody = z
  .strictObject({
    name: AccountName.max(60, { error: 'A name has at most 60 characters.' }).describe('What its owner calls it.'),
    id: Base64Url.max(1400),
    clientDataJSON: Base64Url.max(4000),
    attestationObject: Base64Url.max(20_000),
    transports: Transports,
  })
  .meta({ id: 'PasskeyBody' })

const Passkey = z
  .object({ id: Uuid, name: z.string(), createdAt: Instant, lastUsedAt: Instant.nullable() })
  .meta({ id: 'Passkey' })

/** One's second factors. */
export const OwnFactors = z
  .object({
    app: z.object({ createdAt: Instant, lastUsedAt: Instant.nullable() }).nullable(),
    passkeys: z.array(Passkey),
    recoveryCodes: z.int().describe('How many of the ten are left.'),
    requiredFrom: Day.nullable().describe('From which day on the account needs one by its roles; null: it does not.'),
    passkeysWork: z.boolean().describe('Whether this server is known by a name that passkeys can be made for.'),
  })
  .meta({ id: 'OwnFactors' })

/** The key of a new authenticator app, told this once. */
export const NewApp = z
  .object({
    key: z.string().describe('To type, in base32.'),
    address: z.string().describe('To scan: `otpauth://totp/…`'),
  })
  .meta({ id: 'NewApp' })

export const AppCodeBody = z.strictObject({ code: Code }).meta({ id: 'AppCodeBody' })

/** Ten codes, told this once. */
export const RecoveryCodes = z.object({ codes: z.array(z.string()) }).meta({ id: 'RecoveryCodes' })

/** A factor was added; with the first one come recovery codes. */
export const FactorAdded = z.object({ codes: z.array(z.string()).nullable() }).meta({ id: 'FactorAdded' })

export const FactorResetBody = z.strictObject({ reason: Reason }).meta({ id: 'FactorResetBody' })

const Rule = z.strictObject({ role: z.enum(ROLES), fromDay: Day })

/** Which roles need a second factor, and from which day on. */
export const FactorRules = z
  .strictObject({
    rules: z
      .array(Rule)
      .max(ROLES.length)
      .refine((rules) => new Set(rules.map(({ role }) => role)).size === rules.length, {
        error: 'Name each role once.',
      }),
  })
  .meta({ id: 'FactorRules' })

/** How far each role is: accounts that can sign in, and those of them without a second factor. */
export const FactorOverview = z
  .object({
    rules: z.array(Rule),
    roles: z.array(z.object({ role: z.enum(ROLES), accounts: z.int(), without: z.int() })),
  })
  .meta({ id: 'FactorOverview' })

export type PasskeyProof = z.infer<typeof PasskeyProof>
export type FactorBody = z.infer<typeof FactorBody>
export type ConfirmationBody = z.infer<typeof ConfirmationBody>
export type FactorAsked = z.infer<typeof FactorAsked>
export type Confirmation = z.infer<typeof Confirmation>
export type PasskeyRequest = z.infer<typeof PasskeyRequest>
export type PasskeyCreation = z.infer<typeof PasskeyCreation>
export type PasskeyBody = z.infer<typeof PasskeyBody>
export type OwnFactors = z.infer<typeof OwnFactors>
export type NewApp = z.infer<typeof NewApp>
export type FactorRules = z.infer<typeof FactorRules>
export type FactorOverview = z.infer<typeof FactorOverview>
