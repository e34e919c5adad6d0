import type { BackupStatus } from '#contract/backups/backups.ts'
import { formatBytes } from '../../words/format-bytes.ts'
import { formatMoment } from '../../words/format-moment.ts'

/** When the last good backup was, as the answer of the page. */
export const formatLastGood = ({ lastGood, running }: BackupStatus, today: string): string => {
  if (running) return 'A backup is being written.'
  if (lastGood === null) return 'There is no backup.'
  return `The last good backup is of ${formatMoment(lastGood.takenAt, today)}, ${formatBytes(lastGood.bytes)}.`
}

/** What is wrong with the backups and what to do; null: nothing. */
export const formatBackupWarning = ({ warning, lastFailure, schedule }: BackupStatus, today: string): string | null => {
  switch (warning) {
    case null:
      return null
    case 'failed':
      return `The last backup failed, ${formatMoment(lastFailure!.at, today)}: ${lastFailure!.problem}`
    case 'none':
      return schedule?.next
        ? `There is no backup yet; the first one is due ${formatMoment(schedule.next, today)}.`
        : 'There is no backup yet.'
    case 'overdue':
      return 'Two backups in a row were not made when they were due. Look into the log of the server, and make one now.'
    case 'not scheduled':
      return 'No backup is made by itself. Set REVIEWSTAND_BACKUP_AT on the server, as 30 2 * * * for every night at half past two.'
  }
}

/** When the next one comes. */
export const formatNext = ({ schedule, keep }: BackupStatus, today: string): string =>
  schedule === null
    ? 'None is made by itself, and none is deleted.'
    : `${schedule.next ? `The next one is due ${formatMoment(schedule.next, today)}` : 'None is due any more'} (${schedule.at}, ${schedule.timeZone}); the latest ${keep} are kept.`

/** How far the one being written is. */
export const formatProgress = ({ done, all }: NonNullable<BackupStatus['running']>): string =>
  done === null || all === null || all === 0
    ? 'It is being written …'
    : done < all
      ? `${Math.floor((done / all) * 100)} % of the rows are written.`
      : 'All rows are written; the file is read back and compared.'
