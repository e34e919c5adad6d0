import { createHash, timingSafeEqual } from 'node:crypto'
import type { FastifyInstance, FastifyRequest } from 'fastify'
import ipaddr from 'ipaddr.js'
import { collectDefaultMetrics, Gauge, Histogram, Registry } from 'prom-client'
import type { Context } from '../context/context.ts'
import { AppError } from '../errors.ts'
import { readServerFigures, type ServerFigures } from '../health/services/server-figures.ts'

/** Who may read the figures: whoever has the token, or where there is none whoever asks from this machine itself. */
export interface MetricsAccess {
  readonly token: string | null
  /** Behind a proxy everybody comes from a machine of ours, so that without a token nobody is let in. */
  readonly isBehindProxy: boolean
}

/** Seconds; a page should come within 0.3. */
const BUCKETS = [0.01, 0.03, 0.1, 0.3, 1, 3, 10]
/** What a proxy adds, whether it is trusted or not. */
const FORWARDED = ['forwarded', 'x-forwarded-for', 'x-real-ip', 'via']

/**
 * Counts and times every request by its route, and gives all figures of the server at `/metrics` in the text format of
 * Prometheus. They name routes, never addresses, and nobody.
 */
export function registerMetrics(app: FastifyInstance, context: Context, access: MetricsAccess): void {
  const register = new Registry()
  const requests = new Histogram({
    name: 'reviewstand_request_seconds',
    help: 'Requests answered, by method, route and status',
    labelNames: ['method', 'route', 'status'] as const,
    buckets: BUCKETS,
    registers: [register],
  })
  app.addHook('onResponse', async (request, reply) => {
    const { url = 'none' } = request.routeOptions
    // Files of the app have a route each, under names that change with every build.
    const route = url.startsWith('/assets/') ? '/assets/*' : url
    const labels = { method: request.method, route, status: String(reply.statusCode) }
    requests.observe(labels, reply.elapsedTime / 1000)
  })
  const show = figureGauges(register)
  const showStandbys = standbyGauges(register)
  let begun = false
  app.get('/metrics', { schema: { hide: true } }, async (request, reply) => {
    requireAccess(request, access)
    if (!begun) collectDefaultMetrics({ register, prefix: 'reviewstand_' })
    begun = true
    const figures = await readServerFigures(context)
    show(figures)
    showStandbys(figures.standbys)
    return reply.type(register.contentType).send(await register.metrics())
  })
}

const FIGURES = {
  connectionsOpen: ['connections_open', 'Connections to PostgreSQL'],
  connectionsIdle: ['connections_idle', 'Connections to PostgreSQL that do nothing'],
  connectionsAwaited: ['connections_awaited', 'Questions that wait for a connection'],
  statements: ['statements', 'Statements sent to PostgreSQL since the start'],
  statementsNamed: ['statements_named', 'Of these, those planned once a connection'],
  heldSheets: ['held_sheets', 'Sheets that wait for the training office'],
  plansWaiting: ['plans_waiting', 'Plans that wait to be solved'],
  plansSolving: ['plans_solving', 'Plans that are being solved'],
  importsUnderWay: ['imports_under_way', 'Files that are being checked or stored'],
  lastGoodBackup: ['last_good_backup_timestamp_seconds', 'When the last good backup was begun; 0: never'],
  lastFailedBackup: ['last_failed_backup_timestamp_seconds', 'When the last backup was begun that failed; 0: never'],
  lastFit: ['last_fit_timestamp_seconds', 'When the model behind forecasts was last fitted; 0: never'],
  fits: ['fits', 'Fits of the model that are kept'],
  mailsWaiting: ['mails_waiting', 'Mails that are due and not sent'],
  mailsFailed: ['mails_failed', 'Mails that could not be delivered and are on the list'],
} as const

type FigureName = keyof typeof FIGURES

/** Out: a function that shows the figures as they are now. */
function figureGauges(register: Registry): (figures: Record<FigureName, number | null>) => void {
  const gauges = Object.entries(FIGURES).map(([figure, [name, help]]) => {
    return [figure as FigureName, new Gauge({ name: `reviewstand_${name}`, help, registers: [register] })] as const
  })
  return (figures) => {
    for (const [figure, gauge] of gauges) gauge.set(figures[figure] ?? 0)
  }
}

/** Out: a function that shows how the standbys do, by their place in DATABASE_READ_URL. */
function standbyGauges(register: Registry): (standbys: ServerFigures['standbys']) => void {
  const gauge = (name: string, help: string) =>
    new Gauge({ name: `reviewstand_standby_${name}`, help, labelNames: ['standby'] as const, registers: [register] })
  const up = gauge('up', '1: it answers and follows this primary')
  const lag = gauge('lag_bytes', 'Of the write-ahead log, not replayed yet; -1: not known, for it is not up')
  const answers = gauge('answers', 'Questions that it has answered since the start')
  return (standbys) => {
    for (const [place, { lagBytes, answered }] of standbys.entries()) {
      const labels = { standby: String(place + 1) }
      up.set(labels, lagBytes === null ? 0 : 1)
      lag.set(labels, lagBytes ?? -1)
      answers.set(labels, answered)
    }
  }
}

function requireAccess(request: FastifyRequest, { token, isBehindProxy }: MetricsAccess): void {
  const { authorization = '' } = request.headers
  const isLet = token === null ? !isBehindProxy && isFromHere(request) : isSame(authorization, `Bearer ${token}`)
  if (isLet) return
  const detail =
    token === null
      ? 'The figures of the server are for its own machine; for another set REVIEWSTAND_METRICS_TOKEN.'
      : 'The figures of the server are for who sends REVIEWSTAND_METRICS_TOKEN, as "Authorization: Bearer …".'
  throw new AppError('not-allowed', 'figures-not-for-you', detail)
}

/** Compared by their hashes, in a time that says nothing about how much of it is right. */
const isSame = (given: string, wanted: string): boolean => timingSafeEqual(sha256(given), sha256(wanted))

const sha256 = (text: string): Buffer => createHash('sha256').update(text).digest()

/** Whether somebody on this machine asks, with no proxy between that would make it look so. */
function isFromHere({ socket, headers }: FastifyRequest): boolean {
  if (FORWARDED.some((name) => headers[name] !== undefined)) return false
  const address = socket.remoteAddress
  return address !== undefined && ipaddr.isValid(address) && ipaddr.process(address).range() === 'loopback'
}
