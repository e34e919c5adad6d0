import { useQueryClient } from '@tanstack/react-query'
import { useEffect, useState, useSyncExternalStore } from 'react'
import { accountQueue } from '../outbox/account-queue.ts'
import { onChanged } from './changes.ts'

/** What is kept on this device, read again whenever it changes; undefined until it was read. `read` must keep its identity. */
export const useKept = <Value>(read: () => Promise<Value>): { value: Value | undefined; error: unknown } => {
  const [state, setState] = useState<{ value: Value | undefined; error: unknown }>({ value: undefined, error: null })
  useEffect(() => {
    let isGone = false
    const ask = () =>
      read().then(
        (value) => isGone || setState({ value, error: null }),
        (error: unknown) => isGone || setState((before) => ({ ...before, error })),
      )
    ask()
    const stop = onChanged(ask)
    return () => {
      isGone = true
      stop()
    }
  }, [read])
  return state
}

/** How sending stands for an account, and a way to send now. */
export const useQueue = (accountId: string) => {
  const queue = accountQueue(accountId, useQueryClient())
  const state = useSyncExternalStore(queue.subscribe, queue.state)
  return { state, goOn: queue.goOn }
}
