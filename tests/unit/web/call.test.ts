import { afterEach, beforeEach, expect, it, vi } from 'vitest'
import * as endpoints from '../../../server/contract/readiness/endpoints.ts'
import { addressOf } from '../../../web/api/address-of.ts'
import { call } from '../../../web/api/client.ts'
import { everyPage } from '../../../web/api/every-page.ts'

const fetched = vi.fn<typeof fetch>()
beforeEach(() => {
  vi.stubGlobal('fetch', fetched)
  fetched.mockReset()
})
afterEach(() => vi.unstubAllGlobals())

const answers = (...bodies: unknown[]) => {
  for (const body of bodies) fetched.mockResolvedValueOnce(Response.json(body))
}

it('calls by the method and path of the endpoint, parameters filled in and encoded', async () => {
  answers({ id: 'new' })
  const body = { certification: 'guard', standard: 'rifle', due: '2026-08-01', reason: 'On leave.' }
  expect(await call(endpoints.moveDueDay, { params: { id: 'a/b c' }, body })).toEqual({ id: 'new' })
  const [url, options] = fetched.mock.calls[0]!
  expect(url).toBe('/api/soldiers/a%2Fb%20c/due-days')
  expect(options).toMatchObject({ method: 'POST', body: JSON.stringify(body) })
})

it('leaves out of the query what is not set, and the marks around names', () => {
  expect(
    addressOf(endpoints.getReadiness, { query: { unitId: undefined, certification: '\u2068guard\u2069', limit: 5 } }),
  ).toBe('/api/readiness?certification=guard&limit=5')
  expect(addressOf(endpoints.getReadiness)).toBe('/api/readiness')
})

it('answers nothing where the server does', async () => {
  fetched.mockResolvedValueOnce(new Response(null, { status: 204 }))
  expect(await call(endpoints.getBacklog)).toBeUndefined()
})

it('asks for page after page until there is no next', async () => {
  answers({ items: [1, 2], next: 'a cursor' }, { items: [3], next: null })
  expect(await everyPage(endpoints.listRetests, { query: { unitId: 'u' } })).toEqual([1, 2, 3])
  expect(fetched.mock.calls.map(([url]) => url)).toEqual([
    '/api/retests?unitId=u&limit=500',
    '/api/retests?unitId=u&limit=500&after=a+cursor',
  ])
})

it('does not compile with anything but what the endpoint names', () => {
  const never = () => {
    // @ts-expect-error a path alone names no schemas
    void call('GET /api/retests')
    // @ts-expect-error the soldier's id is missing
    void call(endpoints.moveDueDay, { body: { certification: 'g', standard: 'r', due: '2026-08-01', reason: 'Why.' } })
    // @ts-expect-error a body that lacks the reason
    void call(endpoints.moveDueDay, { params: { id: 'x' }, body: { certification: 'g', standard: 'r', due: '2026' } })
    // @ts-expect-error no such filter
    void call(endpoints.listRetests, { query: { rosterNumber: '7' } })
    // @ts-expect-error it takes no body
    void call(endpoints.listRetests, { body: {} })
    // @ts-expect-error its answer is no page
    void everyPage(endpoints.getBacklog)
    // @ts-expect-error retests are not counts of readiness
    void call(endpoints.listRetests).then(({ counts }) => counts)
  }
  expect(never).toBeTypeOf('function')
})
