import { infiniteQueryOptions, type QueryClient, queryOptions } from '@tanstack/react-query'
import type { BackupPage, BackupStatus } from '#contract/backups/backups.ts'
import { get, send } from '../client.ts'

const WHILE_WRITING_MS = 1000
const OTHERWISE_MS = 60_000

/** How it stands with the backups; asked again and again while one is written. */
export const backupStatusQuery = queryOptions({
  queryKey: ['backups', 'status'],
  queryFn: () => get<typeof BackupStatus>('/backups/status'),
  refetchInterval: ({ state }) => (state.data?.running ? WHILE_WRITING_MS : OTHERWISE_MS),
})

/** Complete backups, the newest first, page after page. */
export const backupsQuery = infiniteQueryOptions({
  queryKey: ['backups', 'list'],
  queryFn: ({ pageParam }) => get<typeof BackupPage>('/backups', { limit: 50, after: pageParam }),
  initialPageParam: undefined as string | undefined,
  getNextPageParam: (page) => page.next ?? undefined,
})

export const beginBackup = () => send<typeof BackupStatus>('POST', '/backups', undefined)

/** Where a browser gets one as a file. */
export const backupAddress = (name: string): string => `/api/backups/${name}/file`

export const forgetBackups = (client: QueryClient) => client.invalidateQueries({ queryKey: ['backups'] })
