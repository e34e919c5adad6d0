import { useCallback, useEffect, useState } from 'react'
import { fetchDayList } from '../../api/test-days/day-list.ts'
import type { KeptDay } from './database.ts'
import { keepDay, readDay } from './day-store.ts'
import { useKept } from './use-kept.ts'

/** The day list on this device: what was downloaded last, and a newer one as soon as the network gives it. */
export const useDay = (
  accountId: string,
): { day: KeptDay | undefined; isRead: boolean; error: Error | null; isFetching: boolean; fetchAgain: () => void } => {
  const [error, setError] = useState<Error | null>(null)
  const [isFetching, setFetching] = useState(true)
  const [isRead, setRead] = useState(false)
  const read = useCallback(() => readDay(accountId).finally(() => setRead(true)), [accountId])
  const kept = useKept(read)
  const fetchAgain = useCallback(() => {
    setFetching(true)
    fetchDayList()
      .then((list) => keepDay(accountId, list, new Date()))
      .then(
        () => setError(null),
        (failure: unknown) => setError(failure instanceof Error ? failure : new Error(String(failure))),
      )
      .finally(() => setFetching(false))
  }, [accountId])
  useEffect(() => {
    fetchAgain()
    window.addEventListener('online', fetchAgain)
    return () => window.removeEventListener('online', fetchAgain)
  }, [fetchAgain])
  return { day: kept.value, isRead, error, isFetching, fetchAgain }
}
