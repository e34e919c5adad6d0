import { z } from 'zod'
import { page } from '../common.ts'

const Moment = z.iso.datetime()

/** A complete backup: written, read back and found whole. */
export const BackupItem = z
  .object({ name: z.string(), takenAt: Moment, bytes: z.int().min(0) })
  .meta({ id: 'BackupItem' })

export const BackupPage = page(BackupItem)

export const BackupName = z
  .string()
  .regex(/^reviewstand-[\dTZ-]{1,30}\.tar\.gz$/, { error: 'Take the name of a backup from /api/backups.' })

export const BackupStatus = z
  .object({
    schedule: z
      .object({ at: z.string(), timeZone: z.string(), next: Moment.nullable() })
      .nullable()
      .describe('When backups are made by themselves; null: never.'),
    folder: z.string().describe('Where they are, on the server.'),
    keep: z.int().describe('So many are kept.'),
    lastGood: BackupItem.nullable(),
    lastFailure: z.object({ at: Moment, problem: z.string() }).nullable(),
    running: z
      .object({ since: Moment, done: z.int().nullable(), all: z.int().nullable() })
      .nullable()
      .describe('What is being written, in rows; null rows: not known to this server process.'),
    warning: z.enum(['failed', 'none', 'overdue', 'not scheduled']).nullable(),
  })
  .meta({ id: 'BackupStatus' })

export const BackupParams = z.strictObject({ name: BackupName })

export type BackupItem = z.infer<typeof BackupItem>
export type BackupStatus = z.infer<typeof BackupStatus>
