import { type QueryClient, useIsFetching, useQueryClient } from '@tanstack/react-query'
import { useEffect, useRef } from 'react'
import type { KeptPage } from './kept-page.ts'
import { keepPage } from './page-store.ts'

/** Answers that say who is signed in are kept elsewhere. */
const NOT_KEPT = new Set(['session', 'health', 'notices', 'study'])

/** Of a cache whose answers come from what was kept: they are not kept anew. */
export const FROM_DEVICE = { isFromDevice: true }

const isFromDevice = (client: QueryClient): boolean => client.getDefaultOptions().queries?.meta === FROM_DEVICE

/** The answers that what is on the screen is drawn from. */
const answersShown = (client: QueryClient) =>
  client
    .getQueryCache()
    .getAll()
    .filter((query) => query.isActive() && query.state.status === 'success' && !NOT_KEPT.has(String(query.queryKey[0])))

/** Keeps a page on this device for where there is no network, each time something newer of it has come; '' keeps nothing. */
export const useKeepPage = (accountId: string, page: string): void => {
  const client = useQueryClient()
  const isComing = useIsFetching() > 0
  const last = useRef('')
  useEffect(() => {
    if (isComing || accountId === '' || page === '' || isFromDevice(client)) return
    const shown = answersShown(client)
    const stand = [page, ...shown.map(({ queryHash, state }) => `${queryHash} ${state.dataUpdatedAt}`)].join()
    if (shown.length === 0 || stand === last.current) return
    last.current = stand
    const kept: KeptPage = {
      accountId,
      page,
      answers: shown.map(({ queryKey, state }) => ({ key: queryKey, data: state.data })),
      fetchedAt: new Date(Math.min(...shown.map(({ state }) => state.dataUpdatedAt))).toISOString(),
    }
    // A device that refuses to keep anything shows what the server sends.
    keepPage(kept).catch(() => undefined)
  }, [client, isComing, accountId, page])
}
