import { infiniteQueryOptions, type QueryClient, queryOptions } from '@tanstack/react-query'
import * as endpoints from '#contract/backups/endpoints.ts'
import { addressOf } from '../address-of.ts'
import { call } from '../client.ts'

const WHILE_WRITING_MS = 1000
const OTHERWISE_MS = 60_000

/** How it stands with the backups; asked again and again while one is written. */
export const backupStatusQuery = queryOptions({
  queryKey: ['backups', 'status'],
  queryFn: () => call(endpoints.getBackupStatus),
  refetchInterval: ({ state }) => (state.data?.running ? WHILE_WRITING_MS : OTHERWISE_MS),
})

/** Complete backups, the newest first, page after page. */
export const backupsQuery = infiniteQueryOptions({
  queryKey: ['backups', 'list'],
  queryFn: ({ pageParam }) => call(endpoints.listBackups, { query: { limit: 50, after: pageParam } }),
  initialPageParam: undefined as string | undefined,
  getNextPageParam: (page) => page.next ?? undefined,
})

export const beginBackup = () => call(endpoints.beginBackup)

/** Where a browser gets one as a file. */
export const backupAddress = (name: string): string => addressOf(endpoints.downloadBackup, { params: { name } })

export const invalidateBackups = (client: QueryClient) => client.invalidateQueries({ queryKey: ['backups'] })
