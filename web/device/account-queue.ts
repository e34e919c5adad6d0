import type { QueryClient } from '@tanstack/react-query'
import { identify } from '../api/day-list.ts'
import { ApiError } from '../api/errors.ts'
import { askWhoIsSignedIn } from '../api/session.ts'
import { forgetWhatSheetsChange, putSheet } from '../api/sheets.ts'
import { alone } from './alone.ts'
import { onChanged } from './changes.ts'
import { readStandard } from './day-store.ts'
import { createQueue, type Queue } from './queue.ts'
import { changeSheet, readSheets } from './sheet-store.ts'

const queues = new Map<string, Queue>()

/** The queue of an account on this device: it goes on by itself when the network is back or the page is looked at again. */
export const accountQueue = (accountId: string, client: QueryClient): Queue => {
  const existing = queues.get(accountId)
  if (existing) return existing
  const queue = createQueue(accountId, {
    wire: {
      put: (id, body) => putSheet(id, body, new Date()),
      identify: ({ rosterNumber, familyName }, on) => identify({ rosterNumber, familyName, on }),
      standard: readStandard,
    },
    signedIn: () => signedInAccount(),
    read: () => readSheets(accountId),
    change: (id, change) => changeSheet(accountId, id, change),
    alone: (work) => alone(`reviewstand.queue.${accountId}`, work),
    now: () => Date.now(),
    later: (work, milliseconds) => {
      const timer = setTimeout(work, milliseconds)
      return () => clearTimeout(timer)
    },
    stored: () => void forgetWhatSheetsChange(client),
  })
  queues.set(accountId, queue)
  const goOn = () => void queue.goOn()
  window.addEventListener('online', goOn)
  document.addEventListener('visibilitychange', () => document.visibilityState === 'visible' && goOn())
  onChanged(() => queue.state().phase === 'idle' && goOnIfWaiting(accountId, queue))
  goOn()
  return queue
}

const signedInAccount = async (): Promise<string | null> => {
  try {
    return (await askWhoIsSignedIn()).accountId
  } catch (error) {
    if (error instanceof ApiError && error.status === 401) return null
    throw error
  }
}

const goOnIfWaiting = async (accountId: string, queue: Queue): Promise<void> => {
  if ((await readSheets(accountId)).some(({ state }) => state === 'waiting')) await queue.goOn()
}
