import cookie from '@fastify/cookie'
import { fastifySSE } from '@fastify/sse'
import Fastify, { type FastifyBaseLogger, type FastifyInstance, LogController } from 'fastify'
import { serializerCompiler, validatorCompiler, type ZodTypeProvider } from 'fastify-type-provider-zod'
import { forecastRoutes } from './ability/routes/forecasts.routes.ts'
import { accountRoutes } from './accounts/routes/account.routes.ts'
import { accountsRoutes } from './accounts/routes/accounts.routes.ts'
import { confirmationRoutes } from './accounts/routes/confirmation.routes.ts'
import { factorRulesRoutes } from './accounts/routes/factor-rules.routes.ts'
import { factorRoutes } from './accounts/routes/factors.routes.ts'
import { secondStepRoutes } from './accounts/routes/second-step.routes.ts'
import { sessionRoutes } from './accounts/routes/session.routes.ts'
import { severalAccountsRoutes } from './accounts/routes/several.routes.ts'
import { tokenRoutes } from './accounts/routes/tokens.routes.ts'
import { welcomeRoutes } from './accounts/routes/welcome.routes.ts'
import { armsAndGradesRoutes } from './arms-and-grades/routes/arms-and-grades.routes.ts'
import { backupRoutes } from './backups/routes/backups.routes.ts'
import { calendarRoutes } from './calendar/routes/calendar.routes.ts'
import { askRoutes } from './ceremonies/routes/asks.routes.ts'
import { ceremonyRoutes } from './ceremonies/routes/ceremonies.routes.ts'
import { manningRoutes } from './ceremonies/routes/manning.routes.ts'
import { coachingRoutes } from './coaching/routes/coaching.routes.ts'
import { coachingNoteRoutes } from './coaching/routes/coaching-notes.routes.ts'
import { practiceRoutes } from './coaching/routes/practices.routes.ts'
import type { Config } from './config/config.ts'
import type { Backups } from './context/backups.ts'
import type { CertificateKey } from './context/certificate-key.ts'
import { createContext } from './context/create-context.ts'
import type { MailPost } from './context/mail-post.ts'
import type { Push } from './context/push.ts'
import type { Signals } from './context/signals.ts'
import type { Database } from './db/client.ts'
import { findingRoutes } from './findings/routes/findings.routes.ts'
import { firstStepRoutes } from './first-steps/routes/first-steps.routes.ts'
import { healthRoutes } from './health/routes/health.routes.ts'
import type { Routes, ZodApp } from './http/routes.ts'
import { importTemplateRoutes } from './imports/routes/import-templates.routes.ts'
import { importRoutes } from './imports/routes/imports.routes.ts'
import { mailRoutes } from './mail/routes/mail.routes.ts'
import { ownMailRoutes } from './mail/routes/own-mail.routes.ts'
import { noticeRoutes } from './notices/routes/notices.routes.ts'
import { pushRoutes } from './notices/routes/push.routes.ts'
import { manningProposalRoutes } from './plans/routes/manning-proposal.routes.ts'
import { planRoutes } from './plans/routes/plans.routes.ts'
import { registerCompressedBodies } from './plugins/compressed-bodies.ts'
import { registerHeaders } from './plugins/headers.ts'
import { hostsOf, registerHosts } from './plugins/hosts.ts'
import { MAIL_EVERY_MS, registerMailRounds } from './plugins/mail-rounds.ts'
import { registerMetrics } from './plugins/metrics.ts'
import { registerOpenApi } from './plugins/openapi.ts'
import { answerProblem, registerProblems } from './plugins/problems.ts'
import { publicAddress } from './plugins/public-address.ts'
import { registerPushSender } from './plugins/push-sender.ts'
import { registerRateLimit } from './plugins/rate-limit.ts'
import { registerReading } from './plugins/reading.ts'
import { registerSameSite } from './plugins/same-site.ts'
import { registerSession } from './plugins/session.ts'
import { registerSlowBodies, WAITS, type Waits } from './plugins/slow-bodies.ts'
import { registerWebClient } from './plugins/web-client.ts'
import { commandersWordsRoutes } from './readiness/routes/commanders-words.routes.ts'
import { readinessRoutes } from './readiness/routes/readiness.routes.ts'
import { retestRoutes } from './readiness/routes/retests.routes.ts'
import { suspensionRoutes } from './readiness/routes/suspensions.routes.ts'
import { readinessForecastRoutes } from './readiness-forecast/routes/readiness-forecast.routes.ts'
import { recordRoutes } from './record/routes/record.routes.ts'
import { searchRoutes } from './search/routes/search.routes.ts'
import { amendmentRoutes } from './sheets/routes/amendments.routes.ts'
import { appealRoutes } from './sheets/routes/appeals.routes.ts'
import { sheetRoutes } from './sheets/routes/sheets.routes.ts'
import { identityRoutes } from './sign-on/routes/identities.routes.ts'
import { providerRoutes } from './sign-on/routes/providers.routes.ts'
import { signOnRoutes } from './sign-on/routes/sign-on.routes.ts'
import { absenceRoutes } from './soldiers/routes/absences.routes.ts'
import { asKnownRoutes } from './soldiers/routes/as-known.routes.ts'
import { certificateCheckRoutes } from './soldiers/routes/certificate-checks.routes.ts'
import { extractRoutes } from './soldiers/routes/extracts.routes.ts'
import { levelRoutes } from './soldiers/routes/levels.routes.ts'
import { mergeRoutes } from './soldiers/routes/merges.routes.ts'
import { removalRoutes } from './soldiers/routes/removals.routes.ts'
import { soldierChangeRoutes } from './soldiers/routes/soldier-changes.routes.ts'
import { soldierRecordRoutes } from './soldiers/routes/soldier-records.routes.ts'
import { soldierRoutes } from './soldiers/routes/soldiers.routes.ts'
import { unitMoveRoutes } from './soldiers/routes/unit-moves.routes.ts'
import { unitRoutes } from './soldiers/routes/units.routes.ts'
import { certificationRoutes } from './standards/routes/certifications.routes.ts'
import { standardRoutes } from './standards/routes/standards.routes.ts'
import { bookingRoutes } from './test-days/routes/bookings.routes.ts'
import { dayListRoutes } from './test-days/routes/day-list.routes.ts'
import { testDayLineRoutes } from './test-days/routes/test-day-line.routes.ts'
import { testDayRoutes } from './test-days/routes/test-days.routes.ts'

const LARGEST_BODY_BYTES = 1_048_576
/** Characters of an id in an address; what is longer finds no route. */
const LONGEST_PARAMETER = 500
/** Until a request is answered, until a silent connection is cut. */
const ANSWER_MS = 90_000
const SILENCE_MS = 100_000
/** So often a stream says that it is there, well within that silence. */
const HEARTBEAT_MS = 25_000

export interface AppOptions {
  readonly config: Pick<Config, 'demo' | 'timeZone'> &
    Partial<
      Pick<
        Config,
        | 'host'
        | 'hosts'
        | 'tls'
        | 'trustProxy'
        | 'requestsPerMinute'
        | 'appealDays'
        | 'mostCandidates'
        | 'importMegabytes'
        | 'metricsToken'
        | 'address'
        | 'loopbackProviders'
      >
    >
  readonly db: Database
  readonly clock: () => Date
  /** Left out: streams tell of no change. */
  readonly signals?: Signals
  /** Left out: there are none, and none is made. */
  readonly backups?: Backups
  /** Left out: no mail is sent. */
  readonly mail?: MailPost | null
  /** Left out: as often as a product that runs. */
  readonly mailEveryMs?: number
  /** Left out: no secrets are kept that must be read again. */
  readonly secretKey?: Uint8Array
  /** Left out: certificates carry no signature. */
  readonly certificateKey?: CertificateKey
  /** Left out: no notifications are sent. */
  readonly push?: Push
  /** Left out: as often as a product that runs. */
  readonly pushEveryMs?: number
  readonly logger: FastifyBaseLogger | boolean
  /** Left out: those of a product that runs. */
  readonly waits?: Waits
}

/** What the API is made of, in the order in which its document tells of it. */
const RESOURCES: readonly Routes[] = [
  sessionRoutes,
  secondStepRoutes,
  welcomeRoutes,
  accountRoutes,
  confirmationRoutes,
  factorRoutes,
  tokenRoutes,
  accountsRoutes,
  severalAccountsRoutes,
  factorRulesRoutes,
  signOnRoutes,
  identityRoutes,
  providerRoutes,
  firstStepRoutes,
  unitRoutes,
  levelRoutes,
  unitMoveRoutes,
  armsAndGradesRoutes,
  soldierRoutes,
  soldierChangeRoutes,
  absenceRoutes,
  asKnownRoutes,
  mergeRoutes,
  removalRoutes,
  soldierRecordRoutes,
  forecastRoutes,
  coachingRoutes,
  coachingNoteRoutes,
  practiceRoutes,
  standardRoutes,
  certificationRoutes,
  readinessRoutes,
  readinessForecastRoutes,
  suspensionRoutes,
  commandersWordsRoutes,
  searchRoutes,
  calendarRoutes,
  sheetRoutes,
  amendmentRoutes,
  appealRoutes,
  findingRoutes,
  dayListRoutes,
  testDayRoutes,
  bookingRoutes,
  retestRoutes,
  noticeRoutes,
  pushRoutes,
  testDayLineRoutes,
  ceremonyRoutes,
  manningProposalRoutes,
  manningRoutes,
  askRoutes,
  importRoutes,
  importTemplateRoutes,
  planRoutes,
  backupRoutes,
  extractRoutes,
  certificateCheckRoutes,
  recordRoutes,
  ownMailRoutes,
  mailRoutes,
]

/** A server without routes that checks what comes in and goes out by zod schemas. */
function newServer(config: AppOptions['config'], logger: AppOptions['logger'], waits: Waits): ZodApp {
  const looks = { connectionsCheckingInterval: waits.lookMs }
  const app = Fastify({
    ...(typeof logger === 'boolean' ? { logger } : { loggerInstance: logger }),
    // Of requests nothing is logged: their addresses hold names that were searched for.
    logController: new LogController({ disableRequestLogging: true }),
    bodyLimit: LARGEST_BODY_BYTES,
    routerOptions: { maxParamLength: LONGEST_PARAMETER },
    frameworkErrors: answerProblem,
    handlerTimeout: ANSWER_MS,
    connectionTimeout: SILENCE_MS,
    trustProxy: config.trustProxy?.length ? [...config.trustProxy] : false,
    ...(config.tls
      ? { https: { cert: config.tls.cert, key: config.tls.key, minVersion: 'TLSv1.2', ...looks } }
      : { http: looks }),
  }).withTypeProvider<ZodTypeProvider>()
  app.server.headersTimeout = waits.headMs
  app.removeContentTypeParser('text/plain')
  app.setValidatorCompiler(validatorCompiler)
  app.setSerializerCompiler(serializerCompiler)
  return app
}

/** Builds the server: API and pages on one database. It does not listen. */
export async function buildApp({
  config,
  db,
  clock,
  signals,
  backups,
  mail,
  mailEveryMs = MAIL_EVERY_MS,
  secretKey,
  certificateKey,
  push,
  pushEveryMs,
  logger,
  waits = WAITS,
}: AppOptions): Promise<FastifyInstance> {
  const app = newServer(config, logger, waits)
  const context = createContext({
    db,
    clock,
    timeZone: config.timeZone,
    demo: config.demo,
    ...(config.mostCandidates === undefined ? {} : { mostCandidates: config.mostCandidates }),
    ...(config.appealDays === undefined ? {} : { appealDays: config.appealDays }),
    importMegabytes: config.importMegabytes,
    ...(signals && { signals }),
    backups,
    mail,
    address: publicAddress(app, config),
    ...(secretKey && { secretKey }),
    certificateKey,
    push,
    loopbackProviders: config.loopbackProviders,
  })
  registerProblems(app)
  registerSlowBodies(app, waits, ANSWER_MS)
  await registerHeaders(app, clock)
  registerHosts(app, config.hosts ?? (config.trustProxy?.length ? null : config.host ? hostsOf(config.host) : null))
  registerSameSite(app)
  registerCompressedBodies(app, LARGEST_BODY_BYTES)
  if (config.requestsPerMinute) await registerRateLimit(app, config.requestsPerMinute)
  await app.register(cookie)
  registerSession(app, context)
  registerReading(app, context)
  await app.register(fastifySSE, { heartbeatInterval: HEARTBEAT_MS })
  // Streams end first, or the server would wait for them.
  app.addHook('preClose', () => context.signals.close())
  registerMetrics(app, context, { token: config.metricsToken ?? null, isBehindProxy: !!config.trustProxy?.length })
  await registerOpenApi(app)
  await registerWebClient(app, context)
  for (const add of [healthRoutes(config.demo), ...RESOURCES]) add(app, context)
  registerMailRounds(app, context, mailEveryMs)
  registerPushSender(app, context, pushEveryMs)
  return app
}
