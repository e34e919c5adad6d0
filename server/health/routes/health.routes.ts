import { DEMO_ACCOUNTS, DEMO_PASSWORD } from '../../accounts/services/demo-accounts.ts'
import * as endpoints from '../../contract/health/endpoints.ts'
import { Alive, Health, OpenApiDocument, Ready } from '../../contract/health/health.ts'
import { failures } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { findDoors } from '../../sign-on/services/doors.ts'
import { checkHealth, checkReady } from '../services/check-health.ts'

export const healthRoutes =
  (demo: boolean): Routes =>
  (app, context) => {
    route(app, endpoints.getHealth, {
      config: { open: true },
      schema: {
        operationId: 'getHealth',
        summary: 'Whether server and database answer',
        tags: ['server'],
        security: [],
        response: { 200: Health, 500: failures[500], 503: failures[503] },
      },
      handler: async () => {
        await checkHealth(context)
        return {
          status: 'ok' as const,
          signOn: await findDoors(context),
          demo: demo ? { accounts: [...DEMO_ACCOUNTS], password: DEMO_PASSWORD } : null,
        }
      },
    })

    route(app, endpoints.getAlive, {
      config: { open: true },
      schema: {
        operationId: 'getAlive',
        summary: 'Whether the server runs, whatever becomes of the database: if not, start it again',
        tags: ['server'],
        security: [],
        response: { 200: Alive, 500: failures[500] },
      },
      handler: async () => ({ status: 'alive' as const }),
    })

    route(app, endpoints.getReady, {
      config: { open: true },
      schema: {
        operationId: 'getReady',
        summary: 'Whether requests may be sent here: the database takes writes, and no stop has begun',
        tags: ['server'],
        security: [],
        response: { 200: Ready, 500: failures[500], 503: failures[503] },
      },
      handler: async () => {
        await checkReady(context)
        return { status: 'ready' as const }
      },
    })

    route(app, endpoints.getOpenApi, {
      config: { open: true },
      schema: {
        operationId: 'getOpenApi',
        summary: 'This description',
        tags: ['server'],
        security: [],
        response: { 200: OpenApiDocument, 500: failures[500] },
      },
      handler: async () => app.swagger() as unknown as Record<string, unknown>,
    })
  }
