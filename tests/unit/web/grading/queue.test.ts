import fs from 'node:fs'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { SheetBody, StoredSheet } from '../../../../server/contract/sheets/sheets.ts'
import { StandardBody } from '../../../../server/contract/standards/standards.ts'
import { ApiError, NoAnswerError } from '../../../../web/api/errors.ts'
import { createQueue, type QueueTools } from '../../../../web/device/outbox/queue.ts'
import type { KeptSheet } from '../../../../web/device/store/kept-sheet.ts'
import '../../domain/statistics/fixed-seed.ts'
import { begun } from './arbitrary-events.ts'

const standing = StandardBody.parse(JSON.parse(fs.readFileSync('tests/cases/standard-standing.json', 'utf8')))

const closed = (id: string, more: Partial<KeptSheet> = {}): KeptSheet => ({
  accountId: 'me',
  id,
  state: 'waiting',
  sheet: { ...begun, void: { kind: 'weather', text: '' } },
  revision: 1,
  closedAt: `2026-06-17T1${id}:00:00Z`,
  body: null,
  message: '',
  refusedWith: null,
  tries: 0,
  answer: null,
  ...more,
})

const problem = (status: number) =>
  new ApiError({ type: 'urn:reviewstand:some-rule', title: 'No', status, detail: `said ${status}` })

/** What befalls one request: it arrives or not, and its answer comes back or not. */
type Fate = 'answered' | 'never arrives' | 'answer lost' | 'server fails' | 'session over'

/** A phone and a server between which things get lost by these fates, in turn. */
const setting = (sheets: KeptSheet[], fates: Fate[] = []) => {
  const device = new Map(sheets.map((sheet) => [sheet.id, sheet]))
  const server = new Map<string, string>()
  const arrivals: string[] = []
  let clock = 0
  let timer: (() => void) | null = null
  let signedIn: string | null = 'me'
  let beforeAnswer: (id: string) => void = () => undefined
  const tools: QueueTools = {
    wire: {
      async put(id: string, body: SheetBody): Promise<StoredSheet> {
        const fate = fates.shift() ?? 'answered'
        if (fate === 'never arrives') throw new NoAnswerError(null)
        if (fate === 'session over') throw problem(401)
        if (fate === 'server fails') throw problem(503)
        beforeAnswer(id)
        const text = JSON.stringify(body)
        const before = server.get(id)
        if (before !== undefined && before !== text) throw problem(409)
        if (before === undefined) arrivals.push(id)
        server.set(id, text)
        if (fate === 'answer lost') throw new NoAnswerError(null)
        return { id, state: 'counted', violations: [] } as unknown as StoredSheet
      },
      async identify(person) {
        if (person.familyName !== 'Brandt') throw problem(404)
        return { id: 'c0ffee00-0000-4000-8000-00000000000b', sponsor: null }
      },
      standard: async () => ({ ...standing, id: '', publishedAt: null }),
    },
    signedIn: async () => signedIn,
    read: async () => [...device.values()].sort((a, b) => (a.closedAt ?? '').localeCompare(b.closedAt ?? '')),
    async change(id, change) {
      const sheet = device.get(id)
      if (sheet) device.set(id, change(sheet))
    },
    alone: (work) => work(),
    now: () => clock,
    later(work, milliseconds) {
      timer = () => {
        clock += milliseconds
        work()
      }
      return () => {
        timer = null
      }
    },
    stored: () => undefined,
  }
  return {
    queue: createQueue('me', tools),
    device,
    server,
    arrivals,
    signIn: (id: string | null) => {
      signedIn = id
    },
    onArrival: (then: (id: string) => void) => {
      beforeAnswer = then
    },
    waitsFor: () => timer !== null,
    states: () => [...device.values()].map(({ state }) => state),
  }
}

describe('the queue of closed sheets', () => {
  it('brings every sheet to the server once and only once, in order, whatever is lost on the way', async () => {
    const fate = fc.constantFrom<Fate>('answered', 'never arrives', 'answer lost', 'server fails', 'session over')
    await fc.assert(
      fc.asyncProperty(fc.array(fate, { maxLength: 30 }), fc.integer({ min: 1, max: 6 }), async (fates, count) => {
        const ids = Array.from({ length: count }, (_, index) => String(index))
        const { queue, device, server, arrivals, states } = setting(
          ids.map((id) => closed(id)),
          [...fates],
        )
        for (let tries = 0; tries <= fates.length; tries++) await queue.goOn()
        expect(states()).toEqual(ids.map(() => 'stored'))
        expect(arrivals).toEqual(ids)
        for (const [id, { body }] of device) expect(server.get(id)).toBe(JSON.stringify(body))
        expect(queue.state().phase).toBe('idle')
      }),
      { numRuns: 200 },
    )
  })

  it('takes nothing off the device before it is acknowledged, and tries again later by itself', async () => {
    const { queue, device, states, waitsFor } = setting([closed('1'), closed('2')], ['answer lost'])
    await queue.goOn()
    expect(states()).toEqual(['waiting', 'waiting'])
    expect(queue.state()).toMatchObject({ phase: 'held up', nextTryAt: 5_000 })
    expect(waitsFor()).toBe(true)
    expect(device.get('1')?.body).not.toBeNull()
  })

  it('keeps what is refused, with the reason, and lets the others pass', async () => {
    const { queue, device, onArrival } = setting([closed('1'), closed('2')])
    onArrival((id) => {
      if (id === '1') throw problem(422)
    })
    await queue.goOn()
    expect(device.get('1')).toMatchObject({ state: 'refused', message: 'said 422', refusedWith: 422, body: null })
    expect(device.get('2')).toMatchObject({ state: 'stored' })
  })

  it('believes no refusal of somebody on the way, such as a guest network', async () => {
    const { queue, device, onArrival } = setting([closed('1')])
    onArrival(() => {
      throw new ApiError({ type: 'about:blank', title: 'Forbidden', status: 403, detail: '' })
    })
    await queue.goOn()
    expect(device.get('1')).toMatchObject({ state: 'waiting' })
  })

  it('takes it for no refusal that a second factor has to be set up first', async () => {
    const { queue, device, onArrival } = setting([closed('1')])
    const type = 'urn:reviewstand:problem:second-factor-required'
    onArrival(() => {
      throw new ApiError({ type, title: 'Not allowed', status: 403, detail: 'Set one up.' })
    })
    await queue.goOn()
    expect(queue.state().phase).toBe('signed out')
    expect(device.get('1')).toMatchObject({ state: 'waiting', message: 'Set one up.' })
  })

  it('sends nothing while another account is signed in, nor while nobody is', async () => {
    const { queue, arrivals, signIn } = setting([closed('1')])
    signIn('somebody else')
    await queue.goOn()
    expect(queue.state().phase).toBe('another account')
    signIn(null)
    await queue.goOn()
    expect(queue.state().phase).toBe('signed out')
    expect(arrivals).toEqual([])
    signIn('me')
    await queue.goOn()
    expect(arrivals).toEqual(['1'])
  })

  it('finds who a walk-in is by number and name, and says when nobody is', async () => {
    const walkIn = (id: string, familyName: string) => {
      const sheet = closed(id)
      const candidate = { id: null, rosterNumber: '1010', grade: '', familyName, givenName: '' }
      return { ...sheet, sheet: { ...sheet.sheet, head: { ...sheet.sheet.head, candidate } } }
    }
    const { queue, device, server } = setting([walkIn('1', 'Brant'), walkIn('2', 'Brandt')])
    await queue.goOn()
    expect(device.get('1')).toMatchObject({
      state: 'refused',
      message: 'Nobody on the roster has number 1010 and the name Brant. Correct one of the two.',
    })
    expect(JSON.parse(server.get('2')!).candidateId).toBe('c0ffee00-0000-4000-8000-00000000000b')
  })
})
