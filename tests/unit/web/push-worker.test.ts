import fs from 'node:fs'
import vm from 'node:vm'
import { describe, expect, it } from 'vitest'

const SOURCE = fs.readFileSync('web/public/push-worker.js', 'utf8')
const ORIGIN = 'https://unit.example'

/** The worker's script in a world that keeps what it does. */
const worker = (windows: string[] = []) => {
  const shown: [string, { body: string; tag: string; data: { path: string } }][] = []
  const opened: string[] = []
  const handlers = new Map<string, (event: unknown) => void>()
  const waits: Promise<unknown>[] = []
  const clients = windows.map((url) => ({
    url,
    focus: async () => undefined,
    navigate: async (href: string) => opened.push(`${new URL(url).pathname} → ${href}`),
  }))
  const self = {
    location: { origin: ORIGIN },
    registration: { showNotification: async (...all: (typeof shown)[number]) => shown.push(all) },
    clients: { matchAll: async () => clients, openWindow: async (href: string) => opened.push(href) },
    addEventListener: (kind: string, handler: (event: unknown) => void) => handlers.set(kind, handler),
  }
  vm.runInNewContext(SOURCE, { self, URL, JSON, String })
  const fire = async (kind: string, event: object) => {
    handlers.get(kind)!({ ...event, waitUntil: (wait: Promise<unknown>) => waits.push(wait) })
    await Promise.all(waits)
  }
  const push = (data: unknown) => fire('push', { data: { json: () => JSON.parse(String(data)) } })
  let isClosed = false
  const click = async (path?: unknown) => {
    const close = () => {
      isClosed = true
    }
    await fire('notificationclick', { notification: { data: { path }, close } })
    return isClosed
  }
  return { shown, opened, push, click }
}

describe('the worker', () => {
  it('shows what came, one of a kind at a time, and something where it cannot be read', async () => {
    const { shown, push } = worker()
    await push(JSON.stringify({ title: 'Reviewstand', body: 'A booking changed.', path: '/notices', kind: 'booking' }))
    await push('no JSON')
    expect(shown[0]).toMatchObject([
      'Reviewstand',
      { body: 'A booking changed.', tag: 'booking', data: { path: '/notices' } },
    ])
    expect(shown[1]![1].body).toMatch(/^There is news/)
  })

  it('opens the page in a window that is there, never in one where a sheet is written', async () => {
    const there = worker([`${ORIGIN}/grade/7`, `${ORIGIN}/stand`])
    expect(await there.click('/notices')).toBe(true)
    expect(there.opened).toEqual([`/stand → ${ORIGIN}/notices`])
    const grading = worker([`${ORIGIN}/grade/7`])
    await grading.click('/notices')
    expect(grading.opened).toEqual([`${ORIGIN}/notices`])
  })

  it('opens nothing of another site, whatever the path says', async () => {
    for (const path of ['https://elsewhere.example/', '//elsewhere.example/x', 'javascript:alert(1)', undefined, 7]) {
      const { opened, click } = worker()
      await click(path)
      expect(opened.every((href) => String(href).startsWith(`${ORIGIN}/`))).toBe(true)
    }
  })
})
