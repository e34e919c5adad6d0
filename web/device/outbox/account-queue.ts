import type { QueryClient } from '@tanstack/react-query'
import { askWhoIsSignedIn } from '../../api/accounts/session.ts'
import { putPractice } from '../../api/coaching/practices.ts'
import { ApiError } from '../../api/errors.ts'
import { invalidateSheets, putSheet } from '../../api/sheets/sheets.ts'
import { addWalkIn, markBooking } from '../../api/test-days/bookings.ts'
import { fetchDayList, identify } from '../../api/test-days/day-list.ts'
import { alone } from '../store/alone.ts'
import { onChanged } from '../store/changes.ts'
import { keepDay, readStandard } from '../store/day-store.ts'
import { dropPendingAction, keepPendingAction, readPendingActions } from '../store/pending-action-store.ts'
import { dropPractice, keepPractice, readPractices } from '../store/practice-store.ts'
import { changeSheet, readSheets } from '../store/sheet-store.ts'
import { createQueue, type Queue } from './queue.ts'
import { sendPendingActions } from './send-pending-actions.ts'

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
      firstSheet: async ({ testDayId, candidate, standard }) =>
        (await fetchDayList()).bookings.find(
          (one) =>
            one.testDayId === testDayId &&
            one.candidate.id === candidate.id &&
            one.standard === standard &&
            one.asSecond,
        )?.firstSheetId ?? null,
    },
    signedIn: () => signedInAccount(),
    read: () => readSheets(accountId),
    change: (id, change) => changeSheet(accountId, id, change, 'hold'),
    alone: (work) => alone(`reviewstand.queue.${accountId}`, work),
    now: () => Date.now(),
    later: (work, milliseconds) => {
      const timer = setTimeout(work, milliseconds)
      return () => clearTimeout(timer)
    },
    stored: () => void invalidateSheets(client),
    countDeeds: async () =>
      [...(await readPendingActions(accountId)), ...(await readPractices(accountId))].filter(isWaiting).length,
    sendPendingActions: async () => {
      await sendOwnDeeds(accountId)
      await sendOwnPractices(accountId, client)
    },
  })
  queues.set(accountId, queue)
  const goOn = () => void queue.goOn()
  window.addEventListener('online', goOn)
  document.addEventListener('visibilitychange', () => document.visibilityState === 'visible' && goOn())
  onChanged(() => queue.state().phase === 'idle' && goOnIfWaiting(accountId, queue))
  goOn()
  return queue
}

/** Sends check-ins and walk-ins; where some were taken, the day's list comes down anew, and says so before they go. */
const sendOwnDeeds = async (accountId: string): Promise<void> => {
  const taken = await sendPendingActions({
    read: () => readPendingActions(accountId),
    send: (pendingAction) =>
      pendingAction.kind === 'mark'
        ? markBooking(pendingAction.id, pendingAction.mark)
        : addWalkIn(pendingAction.testDayId, pendingAction.id, pendingAction.body),
    drop: dropPendingAction,
    keep: keepPendingAction,
  })
  if (taken > 0) await keepDay(accountId, await fetchDayList(), new Date()).catch(() => undefined)
}

/** Sends practice that was closed; what was taken stands on the pages of the candidates. */
const sendOwnPractices = async (accountId: string, client: QueryClient): Promise<void> => {
  const taken = await sendPendingActions({
    read: () => readPractices(accountId),
    send: async ({ id, body }) => body && putPractice(id, body),
    drop: dropPractice,
    keep: (practice) => keepPractice({ ...practice, revision: practice.revision + 1 }),
  })
  if (taken === 0) return
  for (const subject of ['practices', 'coaching']) void client.invalidateQueries({ queryKey: [subject] })
}

const isWaiting = ({ state }: { readonly state: string }): boolean => state === 'waiting'

const signedInAccount = async (): Promise<string | null> => {
  try {
    const { accountId, onlyEnrols } = await askWhoIsSignedIn()
    // Until the second factor is set up the server takes nothing, as before a sign-in.
    return onlyEnrols ? null : accountId
  } catch (error) {
    if (error instanceof ApiError && error.status === 401) return null
    throw error
  }
}

const goOnIfWaiting = async (accountId: string, queue: Queue): Promise<void> => {
  const kept = [readSheets(accountId), readPendingActions(accountId), readPractices(accountId)]
  if ((await Promise.all<readonly { readonly state: string }[]>(kept)).flat().some(isWaiting)) await queue.goOn()
}
