import type pg from 'pg'
import type { Signals } from '../../context/signals.ts'
import { databaseServer, ServerClient } from '../../db/server-client.ts'

const CHANNEL = 'test_day'
const RECONNECT_MS = 2_000
const CONNECT_TIMEOUT_MS = 10_000

/** Listens on a connection of its own, which is there only while somebody wants to hear. */
export function openSignals(url: string): Signals {
  const listeners = new Map<string, Set<() => void>>()
  const server = databaseServer(url)
  let client: pg.Client | null = null
  let retry: NodeJS.Timeout | null = null
  const closing = new AbortController()

  const everybody = () => {
    for (const heard of [...listeners.values()].flatMap((some) => [...some])) heard()
  }

  async function connect(): Promise<void> {
    if (closing.signal.aborted || client || listeners.size === 0) return
    const fresh = new ServerClient(server, {
      keepAlive: true,
      connectionTimeoutMillis: CONNECT_TIMEOUT_MS,
      application_name: 'reviewstand signals',
    })
    client = fresh
    const lost = () => {
      if (client !== fresh) return
      client = null
      void fresh.end().catch(() => {})
      if (closing.signal.aborted || retry) return
      retry = setTimeout(() => {
        retry = null
        void connect()
      }, RECONNECT_MS)
      retry.unref()
    }
    fresh.on('error', lost)
    fresh.on('end', lost)
    fresh.on('notification', ({ payload }) => {
      for (const heard of listeners.get(payload ?? '') ?? []) heard()
    })
    try {
      await fresh.connect()
      await fresh.query(`LISTEN ${CHANNEL}`)
      everybody()
    } catch {
      lost()
    }
  }

  return {
    closing: closing.signal,
    onTestDay(testDayId, heard) {
      const some = listeners.get(testDayId) ?? new Set()
      listeners.set(testDayId, some.add(heard))
      void connect()
      return () => {
        some.delete(heard)
        if (some.size === 0 && listeners.get(testDayId) === some) listeners.delete(testDayId)
        if (listeners.size > 0 || !client) return
        const idle = client
        client = null
        void idle.end().catch(() => {})
      }
    },
    async close() {
      closing.abort()
      if (retry) clearTimeout(retry)
      listeners.clear()
      const open = client
      client = null
      await open?.end().catch(() => {})
    },
  }
}
