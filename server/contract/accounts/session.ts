import { z } from 'zod'
import { Instant, Uuid, Words } from '../common.ts'
import { SHORTEST_PASSWORD } from './shortest-password.ts'

/** A password as somebody types it; whether it is right is another matter. */
export const Password = z.string().max(1024, { error: 'A password has at most 1024 characters.' })

const characters = (text: string): number => [...text.normalize('NFC')].length

/** A password somebody chooses: long, of any characters whatever. */
export const NewPassword = Password.refine((text) => characters(text) >= SHORTEST_PASSWORD, {
  error: `Choose a password of at least ${SHORTEST_PASSWORD} characters; a few words make a good one.`,
})
  .refine((text) => !/\p{Surrogate}/u.test(text), { error: 'The password holds half a character; type it anew.' })
  .meta({ minLength: SHORTEST_PASSWORD })

/** What somebody signs in as: one line, the same however it was typed. */
export const AccountName = Words.max(100, { error: 'A name has at most 100 characters.' })
  .regex(/^[^\p{Cc}\p{Cf}\p{Zl}\p{Zp}]*$/u, { error: 'The name holds a character that cannot be seen; leave it out.' })
  .normalize('NFC')
  .trim()

export const SignInBody = z
  .strictObject({ name: Words.normalize('NFC').trim(), password: Password })
  .meta({ id: 'SignInBody' })

export const ROLES = ['leader', 'sponsor', 'grader', 'commander', 'office', 'administrator', 'soldier'] as const

/** Who is signed in. */
export const Session = z
  .object({
    accountId: Uuid,
    name: z.string(),
    roles: z.array(z.enum(ROLES)),
    soldierId: Uuid.nullable(),
    unitId: Uuid.nullable(),
    zone: z.string().describe('The time zone of the unit one leads, else of one’s own, else of the top.'),
    onlyEnrols: z.boolean().describe('The roles need a second factor; nothing can be done before one is set up.'),
    factorReset: z
      .object({ at: Instant, by: z.string(), reason: z.string() })
      .nullable()
      .describe('Somebody took the second factors of this account away; told until its owner says they know.'),
  })
  .meta({ id: 'Session' })

export const SetupBody = z
  .strictObject({
    token: z.string().max(200),
    name: AccountName,
    password: NewPassword,
  })
  .meta({ id: 'SetupBody' })

export type Session = z.infer<typeof Session>
export type SignInBody = z.infer<typeof SignInBody>
export type SetupBody = z.infer<typeof SetupBody>
