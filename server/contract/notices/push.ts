import { z } from 'zod'
import { Instant } from '../common.ts'

/** How it stands with notifications outside the pages. */
export const PushState = z
  .object({
    isOn: z.boolean().describe('An administrator lets notifications be sent.'),
    publicKey: z
      .string()
      .nullable()
      .describe('What a browser subscribes with (base64url); null: this server sends none.'),
    contact: z.string().nullable().describe('Whom push services write to; for administrators, else null.'),
    here: Instant.nullable().describe('Since when this session’s browser takes them; null: it does not.'),
    elsewhere: z.int().describe('How many other browsers of this account take them.'),
  })
  .meta({ id: 'PushState' })

const CONTACT = 'Give an address like mailto:office@unit.example or https://unit.example.'

/** Turning notifications on or off for the whole unit. */
export const PushSettingBody = z
  .strictObject({
    isOn: z.boolean(),
    contact: z
      .string()
      .max(200)
      .regex(/^(mailto:[^\s@<>]+@[^\s@<>]+|https:\/\/[^\s<>]+)$/, { error: CONTACT }),
  })
  .meta({ id: 'PushSettingBody' })

const Base64Url = (characters: number) =>
  z
    .string()
    .regex(new RegExp(`^[A-Za-z0-9_-]{${characters}}={0,2}$`), { error: 'Send the key as the browser gave it.' })

/** A browser's subscription, as `PushSubscription.toJSON()` has it. */
export const PushSubscriptionBody = z
  .strictObject({
    endpoint: z.string().max(2000),
    keys: z.strictObject({ p256dh: Base64Url(87), auth: Base64Url(22) }),
  })
  .meta({ id: 'PushSubscriptionBody' })

export type PushState = z.infer<typeof PushState>
export type PushSettingBody = z.infer<typeof PushSettingBody>
export type PushSubscriptionBody = z.infer<typeof PushSubscriptionBody>
