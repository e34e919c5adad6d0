/** What an archive is called: `reviewstand-2026-11-25T13-20-00Z.tar.gz`, so that names sort by time. */
export const archiveName = (at: Date): string =>
  `reviewstand-${at.toISOString().slice(0, 19).replaceAll(':', '-')}Z.tar.gz`

const NAME = /^reviewstand-(\d{4}-\d\d-\d\dT)(\d\d)-(\d\d)-(\d\d)Z\.tar\.gz$/

/** When an archive of this name was begun; null: we give no such name, so the file is none of ours. */
export function momentInName(name: string): Date | null {
  const parts = NAME.exec(name)
  if (parts === null) return null
  const moment = new Date(`${parts[1]}${parts[2]}:${parts[3]}:${parts[4]}Z`)
  return Number.isNaN(moment.getTime()) ? null : moment
}
