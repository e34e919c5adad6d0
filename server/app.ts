import cookie from '@fastify/cookie'
import Fastify, { type FastifyBaseLogger, type FastifyInstance } from 'fastify'
import { serializerCompiler, validatorCompiler, type ZodTypeProvider } from 'fastify-type-provider-zod'
import type { Config } from './config.ts'
import type { Database } from './db/client.ts'
import { registerOpenApi } from './plugins/openapi.ts'
import { registerProblems } from './plugins/problems.ts'
import { registerSession } from './plugins/session.ts'
import { registerWebClient } from './plugins/web-client.ts'
import { certificationRoutes } from './routes/certifications.routes.ts'
import { eventRoutes } from './routes/events.routes.ts'
import { findingRoutes } from './routes/findings.routes.ts'
import { healthRoutes } from './routes/health.routes.ts'
import { recordRoutes } from './routes/record.routes.ts'
import type { Routes } from './routes/routes.ts'
import { sessionRoutes } from './routes/session.routes.ts'
import { sheetRoutes } from './routes/sheets.routes.ts'
import { soldierRecordRoutes } from './routes/soldier-records.routes.ts'
import { soldierRoutes } from './routes/soldiers.routes.ts'
import { standardRoutes } from './routes/standards.routes.ts'
import { unitRoutes } from './routes/units.routes.ts'
import { createContext } from './services/create-context.ts'

const LARGEST_BODY_BYTES = 1_048_576
const LONGEST_REQUEST_MS = 60_000

export interface AppOptions {
  readonly config: Pick<Config, 'demo' | 'timeZone'>
  readonly db: Database
  readonly clock: () => Date
  readonly logger: FastifyBaseLogger | boolean
}

/** Builds the server: API and pages on one database. It does not listen. */
export async function buildApp({ config, db, clock, logger }: AppOptions): Promise<FastifyInstance> {
  const app = Fastify({
    ...(typeof logger === 'boolean' ? { logger } : { loggerInstance: logger }),
    bodyLimit: LARGEST_BODY_BYTES,
    requestTimeout: LONGEST_REQUEST_MS,
    disableRequestLogging: true,
  }).withTypeProvider<ZodTypeProvider>()
  app.removeContentTypeParser('text/plain')
  app.setValidatorCompiler(validatorCompiler)
  app.setSerializerCompiler(serializerCompiler)
  const context = createContext({ db, clock, timeZone: config.timeZone })
  registerProblems(app)
  await app.register(cookie)
  registerSession(app, context)
  await registerOpenApi(app)
  await registerWebClient(app)
  const resources: Routes[] = [
    healthRoutes(config.demo),
    sessionRoutes,
    unitRoutes,
    soldierRoutes,
    soldierRecordRoutes,
    standardRoutes,
    certificationRoutes,
    sheetRoutes,
    findingRoutes,
    eventRoutes,
    recordRoutes,
  ]
  for (const add of resources) add(app, context)
  return app
}
