import swagger from '@fastify/swagger'
import type { FastifyInstance } from 'fastify'
import { jsonSchemaTransform, jsonSchemaTransformObject } from 'fastify-type-provider-zod'
import type { Confirmed } from '../accounts/services/confirmation.ts'
import { SESSION_COOKIE } from './session.ts'

/** What an operation says that asks first who one is. */
function asksWho({ description }: { description?: string }, confirmed: Confirmed): string {
  const whose = confirmed === true ? '' : 'Where the account has a second factor: '
  const asks = `${whose}403 \`confirm-identity\` unless one has shown who one is in the last ten minutes, by POST /api/account/confirmation.`
  return description === undefined ? asks : `${description} ${asks}`
}

interface Described {
  description?: string
  content?: Record<string, unknown>
}

/** Describes the API from the schemas of its routes; registered before them. */
export async function registerOpenApi(app: FastifyInstance): Promise<void> {
  await app.register(swagger, {
    openapi: {
      openapi: '3.1.0',
      info: {
        title: 'Reviewstand',
        version: '1',
        description: 'Readiness of ceremonial units: grade sheets go in, who can stand comes out.',
        license: { name: 'MIT' },
      },
      components: {
        securitySchemes: {
          session: { type: 'apiKey', in: 'cookie', name: SESSION_COOKIE },
          token: {
            type: 'http',
            scheme: 'bearer',
            description:
              'A token for scripts, made under My account; each operation that takes one names the scope it needs.',
          },
        },
      },
      security: [{ session: [] }],
    },
    transform: (operation) => {
      const { schema, url } = jsonSchemaTransform(operation)
      const { token: scope, confirmed } = operation.route.config ?? {}
      const described = confirmed === undefined ? schema : { ...schema, description: asksWho(schema, confirmed) }
      return { url, schema: scope ? { ...described, security: [{ session: [] }, { token: [scope] }] } : described }
    },
    transformObject: (document) => describeAnswers(jsonSchemaTransformObject(document)),
  })
}

/** What stands where a route says nothing of its own. */
const SAYS_NOTHING = 'Default Response'

/** What the answer of a success is, where its schema does not say. */
const describe = (method: string, status: string): string => {
  if (status === '201') return 'It is stored; the answer says under which id.'
  return method === 'get' ? 'What was asked for.' : 'It is done; the answer says how things stand now.'
}

/** What a parameter names may not be there, or not for this account; one in the path may be longer than any is. */
function addWhatAddressesCause(
  address: string,
  { responses = {}, parameters = [] }: { responses?: Record<string, Described>; parameters?: unknown[] },
): void {
  const problem = responses[400]?.content
  if (!problem || parameters.length === 0) return
  const content = { ...problem }
  responses[404] ??= { description: 'There is no such thing.', content }
  if (address.includes('{')) responses[414] ??= { description: 'The address is too long.', content: { ...problem } }
}

/** Says what successes answer, and of every failure that it is answered as a problem. */
function describeAnswers(document: ReturnType<typeof jsonSchemaTransformObject>): typeof document {
  for (const [address, path] of Object.entries(document.paths ?? {})) {
    for (const [method, operation] of Object.entries(path ?? {}) as [
      string,
      { responses?: Record<string, Described>; parameters?: unknown[] },
    ][]) {
      addWhatAddressesCause(address, operation)
      for (const [status, response] of Object.entries(operation.responses ?? {})) {
        const { 'application/json': json, ...others } = response.content ?? {}
        if (response.description === SAYS_NOTHING) response.description = describe(method, status)
        if (/^[45]/.test(status) && json) response.content = { ...others, 'application/problem+json': json }
      }
    }
  }
  return document
}
