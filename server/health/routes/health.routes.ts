import { z } from 'zod'
import { DEMO_ACCOUNTS, DEMO_PASSWORD } from '../../accounts/services/demo-accounts.ts'
import { Alive, Health, Ready } from '../../contract/accounts/session.ts'
import { failures } from '../../http/failures.ts'
import type { Routes } from '../../http/routes.ts'
import { checkHealth } from '../services/check-health.ts'

export const healthRoutes =
  (demo: boolean): Routes =>
  (app, context) => {
    app.route({
      method: 'GET',
      url: '/api/health',
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
        return { status: 'ok' as const, demo: demo ? { accounts: [...DEMO_ACCOUNTS], password: DEMO_PASSWORD } : null }
      },
    })

    app.route({
      method: 'GET',
      url: '/api/health/alive',
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

    app.route({
      method: 'GET',
      url: '/api/health/ready',
      config: { open: true },
      schema: {
        operationId: 'getReady',
        summary: 'Whether requests may be sent here: the database answers, and no stop has begun',
        tags: ['server'],
        security: [],
        response: { 200: Ready, 500: failures[500], 503: failures[503] },
      },
      handler: async () => {
        await checkHealth(context)
        return { status: 'ready' as const }
      },
    })

    app.route({
      method: 'GET',
      url: '/api/openapi.json',
      config: { open: true },
      schema: {
        operationId: 'getOpenApi',
        summary: 'This description',
        tags: ['server'],
        security: [],
        response: { 200: z.record(z.string(), z.unknown()), 500: failures[500] },
      },
      handler: async () => app.swagger() as unknown as Record<string, unknown>,
    })
  }
