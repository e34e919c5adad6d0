import swagger from '@fastify/swagger'
import type { FastifyInstance } from 'fastify'
import { jsonSchemaTransform, jsonSchemaTransformObject } from 'fastify-type-provider-zod'
import { SESSION_COOKIE } from './session.ts'

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
    transformObject: jsonSchemaTransformObject,
  })
}
