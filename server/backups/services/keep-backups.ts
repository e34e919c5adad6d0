import { requireAction } from '../../access/services/require.ts'
import type { BackupFile, Backups } from '../../context/backups.ts'
import type { Context } from '../../context/context.ts'
import { fromCursor, toPage } from '../../context/cursor.ts'
import type { BackupItem, BackupStatus } from '../../contract/backups/backups.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { backupWarning } from '../../domain/backup/backup-warning.ts'
import { conflict, notFound } from '../../errors.ts'
import { recorded } from '../../record/services/recorded.ts'

const toItem = ({ name, takenAt, bytes }: BackupFile): BackupItem => ({ name, takenAt: takenAt.toISOString(), bytes })

/** How it stands with the backups, and what is wrong with them. */
export async function getBackupStatus(context: Context, actor: Actor): Promise<BackupStatus> {
  requireAction(actor, 'keep-backups')
  const [{ schedule, lastFailure, running, folder, keep }, [last]] = await Promise.all([
    context.backups.state(),
    context.backups.list(),
  ])
  const warning = backupWarning({
    lastGoodAt: last?.takenAt ?? null,
    lastFailureAt: lastFailure?.at ?? null,
    lastDue: schedule?.lastDue ?? null,
  })
  return {
    schedule: schedule && {
      at: schedule.at,
      timeZone: schedule.timeZone,
      next: schedule.next?.toISOString() ?? null,
    },
    folder,
    keep,
    lastGood: last ? toItem(last) : null,
    lastFailure: lastFailure && { at: lastFailure.at.toISOString(), problem: lastFailure.problem },
    running: running && { since: running.since.toISOString(), done: running.done, all: running.all },
    warning: context.demo && warning === 'not scheduled' ? null : warning,
  }
}

/** The complete backups, the latest first. */
export async function findBackups(
  context: Context,
  actor: Actor,
  { limit, after }: { limit: number; after?: string | undefined },
): Promise<{ items: BackupItem[]; next: string | null }> {
  requireAction(actor, 'keep-backups')
  const key = fromCursor(after, ['text'])
  const files = await context.backups.list()
  const rest = key ? files.filter(({ name }) => name < String(key[0])) : files
  return toPage(rest.slice(0, limit + 1), limit, ({ name }) => [name], toItem)
}

/**
 * Begins a backup; it goes on by itself.
 * @throws AppError conflict where one is being written
 */
export async function beginBackup(context: Context, actor: Actor): Promise<BackupStatus> {
  requireAction(actor, 'keep-backups')
  if (!(await context.backups.begin())) {
    throw conflict('backup-running', 'A backup is being written already. Wait for its end.')
  }
  await recorded(context, actor, async (_, note) => {
    note({ action: 'backup.begun', subject: { kind: 'backup', id: null } })
  })
  return getBackupStatus(context, actor)
}

/** The bytes of a backup; that somebody took it away is on record. */
export async function downloadBackup(
  context: Context,
  actor: Actor,
  name: string,
): Promise<NonNullable<Awaited<ReturnType<Backups['open']>>>> {
  requireAction(actor, 'keep-backups')
  const file = await context.backups.open(name)
  if (file === null) throw notFound('backup')
  await recorded(context, actor, async (_, note) => {
    note({ action: 'backup.downloaded', subject: { kind: 'backup', id: null }, after: { name, bytes: file.bytes } })
  })
  return file
}
