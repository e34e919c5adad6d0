import { z } from 'zod'
import { Uuid, Words } from './common.ts'

const Password = z.string().max(1024, { error: 'A password has at most 1024 characters.' })

export const SignInBody = z.strictObject({ name: Words, password: Password }).meta({ id: 'SignInBody' })

export const ROLES = ['leader', 'sponsor', 'grader', 'commander', 'office', 'administrator', 'soldier'] as const

/** Who is signed in. */
export const Session = z
  .object({
    accountId: Uuid,
    name: z.string(),
    roles: z.array(z.enum(ROLES)),
    soldierId: Uuid.nullable(),
    unitId: Uuid.nullable(),
  })
  .meta({ id: 'Session' })

export const SetupBody = z
  .strictObject({
    token: z.string().max(200),
    name: Words,
    password: Password.min(15, { error: 'Choose a password of at least 15 characters; a few words make a good one.' }),
  })
  .meta({ id: 'SetupBody' })

export const Health = z
  .object({
    status: z.literal('ok'),
    demo: z.object({ accounts: z.array(z.string()), password: z.string() }).nullable(),
  })
  .meta({ id: 'Health' })

export type Session = z.infer<typeof Session>
export type SignInBody = z.infer<typeof SignInBody>
export type SetupBody = z.infer<typeof SetupBody>
export type Health = z.infer<typeof Health>
