import { expect, it } from 'vitest'
import { z } from 'zod'
import type { Endpoint } from '../../../server/contract/endpoint.ts'
import { route } from '../../../server/http/route.ts'
import type { ZodApp } from '../../../server/http/routes.ts'

const Id = z.strictObject({ id: z.string() })
const Filters = z.strictObject({ q: z.string().optional() })
const Short = z.object({ id: z.string() })
const Long = z.object({ id: z.string(), name: z.string() })

const getThing = 'GET /api/things/:id' as Endpoint<{
  params: typeof Id
  query: typeof Filters
  answer: typeof Short
}>
const removeThing = 'DELETE /api/things/:id' as Endpoint<{ params: typeof Id }>

const registered: { method: string; url: string }[] = []
const app = {
  route: ({ method, url }: { method: string; url: string }) => registered.push({ method, url }),
} as unknown as ZodApp

it('registers by the method and path of the endpoint', () => {
  route(app, getThing, {
    schema: { params: Id, querystring: Filters, response: { 200: Short } },
    handler: ({ params, query }) => ({ id: params.id + (query.q ?? '') }),
  })
  route(app, removeThing, {
    schema: { params: Id, response: { 204: z.null() } },
    handler: async (_, reply) => reply.code(204).send(null),
  })
  expect(registered).toEqual([
    { method: 'GET', url: '/api/things/:id' },
    { method: 'DELETE', url: '/api/things/:id' },
  ])
})

it('does not compile with another schema than the endpoint names', () => {
  const schema = { params: Id, querystring: Filters, response: { 200: Short } }
  const handler = () => ({ id: 'x', name: 'y' })
  // @ts-expect-error an answer with more in it
  route(app, getThing, { schema: { ...schema, response: { 200: Long } }, handler })
  // @ts-expect-error parameters of another shape
  route(app, getThing, { schema: { ...schema, params: Long }, handler })
  // @ts-expect-error no query
  route(app, getThing, { schema: { params: Id, response: { 200: Short } }, handler })
  // @ts-expect-error a body that the endpoint does not name
  route(app, getThing, { schema: { ...schema, body: Long }, handler })
  // @ts-expect-error an answer that the endpoint does not name
  route(app, removeThing, { schema: { params: Id, response: { 200: Short } }, handler })
  expect(registered.length).toBeGreaterThan(0)
})
