import { useQueryClient } from '@tanstack/react-query'
import { useCallback, useEffect, useRef, useState } from 'react'
import { invalidateSheets } from '../../../api/sheets/sheets.ts'
import type { Draft } from './draft.ts'
import { dropEntry, type Entry, loadEntries, saveEntry } from './entry-store.ts'
import { type Sent, sendEntry } from './send-entry.ts'

const RETRY_MILLISECONDS = 15_000

export interface Arrival {
  entry: Entry
  sent: Extract<Sent, { kind: 'stored' }>
}

/**
 * The sheets of an account on this device. Every change is kept at once; those that wait are sent again every fifteen
 * seconds and when the network comes back. `arrivals` are sheets that got through since the page was opened.
 */
export const useEntries = (accountId: string) => {
  const client = useQueryClient()
  const [entries, setEntries] = useState(() => loadEntries(accountId))
  const [kept, setKept] = useState(true)
  const [arrivals, setArrivals] = useState<Arrival[]>([])
  const sending = useRef(new Set<string>())

  const put = useCallback(
    (entry: Entry) => {
      setKept(saveEntry(accountId, entry))
      setEntries((before) => [...before.filter(({ draft }) => draft.id !== entry.draft.id), entry])
    },
    [accountId],
  )
  const drop = useCallback(
    (id: string) => {
      dropEntry(accountId, id)
      setEntries((before) => before.filter(({ draft }) => draft.id !== id))
    },
    [accountId],
  )
  const change = useCallback((draft: Draft) => put({ draft, state: 'open', body: null, message: '' }), [put])

  /** Sends a sheet; the entry stays on this device until the server has stored it. */
  const send = useCallback(
    async (entry: Entry): Promise<Sent | null> => {
      const { id } = entry.draft
      if (sending.current.has(id)) return null
      sending.current.add(id)
      try {
        put({ ...entry, state: 'waiting' })
        const sent = await sendEntry(entry, new Date())
        if (sent.kind === 'stored') {
          drop(id)
          setArrivals((before) => [{ entry, sent }, ...before])
          await invalidateSheets(client)
        } else if (sent.kind === 'proposed') {
          drop(id)
          await client.invalidateQueries({ queryKey: ['sheets'] })
        } else if (sent.kind === 'later') {
          put({ ...entry, state: 'waiting', message: sent.message })
        } else {
          put({ ...entry, state: 'refused', message: sent.message })
        }
        return sent
      } finally {
        sending.current.delete(id)
      }
    },
    [put, drop, client],
  )

  const waiting = useRef<Entry[]>([])
  waiting.current = entries.filter(({ state }) => state === 'waiting')
  const anyWaiting = waiting.current.length > 0
  useEffect(() => {
    if (!anyWaiting) return
    const again = () => {
      for (const entry of waiting.current) void send(entry)
    }
    const timer = setInterval(again, RETRY_MILLISECONDS)
    window.addEventListener('online', again)
    return () => {
      clearInterval(timer)
      window.removeEventListener('online', again)
    }
  }, [anyWaiting, send])

  return { entries, kept, arrivals, change, drop, send }
}
