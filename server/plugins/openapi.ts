import swagger from '@fastify/swagger'
import type { FastifyInstance } from 'fastify'
import { jsonSchemaTransform, jsonSchemaTransformObject } from 'fastify-type-provider-zod'
import { SESSION_COOKIE } from './session.ts'

interface Described {
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
      components: { securitySchemes: { session: { type: 'apiKey', in: 'cookie', name: SESSION_COOKIE } } },
      security: [{ session: [] }],
    },
    transform: jsonSchemaTransform,
    transformObject: (document) => describeProblems(jsonSchemaTransformObject(document)),
  })
}

/** Says of every failure that it is answered as a problem. */
function describeProblems(document: ReturnType<typeof jsonSchemaTransformObject>): typeof document {
  for (const path of Object.values(document.paths ?? {})) {
    for (const operation of Object.values(path ?? {}) as { responses?: Record<string, Described> }[]) {
      for (const [status, response] of Object.entries(operation.responses ?? {})) {
        const { 'application/json': json, ...others } = response.content ?? {}
        if (/^[45]/.test(status) && json) response.content = { ...others, 'application/problem+json': json }
      }
    }
  }
  return document
}
