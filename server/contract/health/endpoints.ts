import type { Endpoint } from '../endpoint.ts'
import type { Alive, Health, OpenApiDocument, Ready } from './health.ts'

export const getHealth = 'GET /api/health' as Endpoint<{ answer: typeof Health }>

export const getAlive = 'GET /api/health/alive' as Endpoint<{ answer: typeof Alive }>

export const getReady = 'GET /api/health/ready' as Endpoint<{ answer: typeof Ready }>

export const getOpenApi = 'GET /api/openapi.json' as Endpoint<{ answer: typeof OpenApiDocument }>
