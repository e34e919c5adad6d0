import { z } from 'zod'
import { Uuid } from '../common.ts'

export const Health = z
  .object({
    status: z.literal('ok'),
    signOn: z
      .object({ providers: z.array(z.object({ id: Uuid, name: z.string() })), foldsPasswords: z.boolean() })
      .describe('The ways to sign in beside name and password.'),
    demo: z.object({ accounts: z.array(z.string()), password: z.string() }).nullable(),
  })
  .meta({ id: 'Health' })

export const Alive = z.object({ status: z.literal('alive') }).meta({ id: 'Alive' })
export const Ready = z.object({ status: z.literal('ready') }).meta({ id: 'Ready' })

export const OpenApiDocument = z.record(z.string(), z.unknown())

export type Health = z.infer<typeof Health>
