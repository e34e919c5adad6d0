import { z } from 'zod'
import { Day, Instant, page, Uuid } from '../common.ts'
import { AccountName } from './session.ts'

/** What tokens are for: of what, and whether they read or write. */
const TOKEN_SCOPES = [
  'roster:read',
  'roster:write',
  'readiness:read',
  'sheets:read',
  'sheets:write',
  'test-days:read',
  'ceremonies:read',
  'standards:read',
] as const

/** No token lasts longer: whoever looks after a script looks at it once a year. */
const LONGEST_TOKEN_DAYS = 366

/** What the record calls a script: one line, as an account's name. */
const TokenName = AccountName.max(60, { error: 'A name has at most 60 characters.' })

const Scopes = z
  .array(z.enum(TOKEN_SCOPES))
  .min(1, { error: 'Say what the token is for.' })
  .max(TOKEN_SCOPES.length, { error: 'Name each scope once.' })
  .refine((scopes) => new Set(scopes).size === scopes.length, { error: 'Name each scope once.' })

export const TokenBody = z
  .strictObject({
    name: TokenName.describe('What the record of changes calls it; no two of an account are called the same.'),
    scopes: Scopes,
    unitId: Uuid.nullable()
      .default(null)
      .describe('Only about soldiers of this unit and those below; null: as far as the account reaches.'),
    days: z.int().min(1).max(LONGEST_TOKEN_DAYS).describe('How long it lasts.'),
  })
  .meta({ id: 'TokenBody' })

/** A token as its owner sees it afterwards. */
export const ScriptToken = z
  .object({
    id: Uuid,
    name: z.string(),
    scopes: z.array(z.enum(TOKEN_SCOPES)),
    unitId: Uuid.nullable(),
    createdAt: Instant,
    expiresAt: Instant,
    lastUsedOn: Day.nullable().describe('The day of the last use, in UTC; null: never used.'),
  })
  .meta({ id: 'ScriptToken' })

export const ScriptTokenList = page(ScriptToken)

/** A new token, told this once. */
export const MadeToken = z
  .object({
    id: Uuid,
    token: z.string().describe('Goes into the header `Authorization: Bearer …`.'),
    expiresAt: Instant,
  })
  .meta({ id: 'MadeToken' })

export type TokenBody = z.infer<typeof TokenBody>
export type ScriptToken = z.infer<typeof ScriptToken>
export type MadeToken = z.infer<typeof MadeToken>
