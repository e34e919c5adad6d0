/** What an archive is called: `reviewstand-2026-11-25T13-20-00Z.tar.gz`, so that names sort by time. */
export const archiveName = (at: Date): string =>
  `reviewstand-${at.toISOString().slice(0, 19).replaceAll(':', '-')}Z.tar.gz`

/** Whether a file has a name that we give; nothing else is ever deleted. */
export const isArchiveName = (name: string): boolean =>
  /^reviewstand-\d{4}-\d\d-\d\dT\d\d-\d\d-\d\dZ\.tar\.gz$/.test(name)
