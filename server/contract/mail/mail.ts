import { z } from 'zod'
import { Password } from '../accounts/session.ts'
import { Instant, page, Uuid } from '../common.ts'

/** What one can have mail about. */
const MailKind = z.enum(['bookings', 'held', 'named', 'people', 'awards', 'lapses', 'week'])
const MailTiming = z.enum(['at once', 'daily', 'weekly', 'never'])

const ADDRESS_ERROR = 'Give one mail address in plain letters, like somebody@example.org, without a name or brackets.'

export const MailAddressBody = z
  .strictObject({
    address: z.string().max(254, { error: ADDRESS_ERROR }).regex(z.regexes.html5Email, { error: ADDRESS_ERROR }),
    password: Password.describe('One’s present password.'),
  })
  .meta({ id: 'MailAddressBody' })

export const MailCodeBody = z
  .strictObject({ code: z.string().regex(/^\d{8}$/, { error: 'Give the eight digits of the mail.' }) })
  .meta({ id: 'MailCodeBody' })

export const MailChoicesBody = z
  .strictObject({
    choices: z
      .array(z.strictObject({ kind: MailKind, timing: MailTiming }))
      .min(1)
      .max(MailKind.options.length),
  })
  .meta({ id: 'MailChoicesBody' })

/** One's own mail: the address, whether it is confirmed, and what comes when. */
export const OwnMail = z
  .object({
    on: z.boolean().describe('This server sends mail.'),
    hour: z.int().nullable().describe('Hour of the morning, by the clock of one’s unit, of daily and Monday’s mail.'),
    address: z.string().nullable(),
    state: z
      .enum(['none', 'unconfirmed', 'confirmed', 'refused'])
      .describe('Refused: its mail server took no mail for it; nothing is sent until it is confirmed anew.'),
    choices: z.array(z.object({ kind: MailKind, timing: MailTiming, timings: z.array(MailTiming) })),
  })
  .meta({ id: 'OwnMail' })

/** How it stands with mail, for administrators. */
export const MailStatus = z
  .object({
    on: z.boolean(),
    server: z.string().nullable().describe('Host and port of the mail server.'),
    sender: z.string().nullable(),
    waiting: z.int().describe('Mails that are due and not sent.'),
    failed: z.int().describe('Mails given up.'),
    refusedAddresses: z.int(),
    lastSentAt: Instant.nullable(),
    problem: z
      .object({ text: z.string(), at: Instant })
      .nullable()
      .describe('What stood in the way last, of mails that still wait.'),
  })
  .meta({ id: 'MailStatus' })

export const FailedMail = z
  .object({
    id: Uuid,
    kind: z.enum(['news', 'daily', 'weekly', 'code', 'address changed', 'test']),
    accountId: Uuid,
    accountName: z.string(),
    address: z.string().nullable(),
    isRefused: z.boolean().describe('Its address was refused for good.'),
    problem: z.string().describe('What the mail server, or the way to it, said.'),
    failedAt: Instant,
  })
  .meta({ id: 'FailedMail' })

export const FailedMailPage = page(FailedMail)

export type MailAddressBody = z.infer<typeof MailAddressBody>
export type MailChoicesBody = z.infer<typeof MailChoicesBody>
export type OwnMail = z.infer<typeof OwnMail>
export type MailStatus = z.infer<typeof MailStatus>
export type FailedMail = z.infer<typeof FailedMail>
