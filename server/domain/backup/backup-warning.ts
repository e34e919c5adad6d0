export type BackupWarning = 'failed' | 'none' | 'overdue' | 'not scheduled'

/**
 * What is wrong with the backups, the gravest first: the last one failed; a schedule is set and there is none; the last
 * good one is older than the last but one moment at which one was due, that is, two intervals were missed; nothing makes any.
 * @param lastDue the last moments at which one was due, the latest first; null: there is no schedule
 * @returns null: nothing
 */
export function backupWarning({
  lastGoodAt,
  lastFailureAt,
  lastDue,
}: {
  readonly lastGoodAt: Date | null
  readonly lastFailureAt: Date | null
  readonly lastDue: readonly Date[] | null
}): BackupWarning | null {
  if (lastFailureAt !== null && (lastGoodAt === null || lastFailureAt >= lastGoodAt)) return 'failed'
  if (lastDue === null) return 'not scheduled'
  if (lastGoodAt === null) return 'none'
  const lastButOne = lastDue[1]
  return lastButOne !== undefined && lastGoodAt < lastButOne ? 'overdue' : null
}
