import { setTimeout } from 'node:timers/promises'
import { freePort } from '../../server/process/postgres/free-port.ts'
import { tryConnect } from '../../server/process/postgres/try-connect.ts'
import { startProduct, startRefused } from '../support/start-product.ts'
import { settingsOf } from './servers.ts'
import { pgbouncerSettings } from './settings.ts'
import { until } from './until.ts'
import type { Workshop } from './workshop.ts'

interface Around {
  /** Of the database, without a pooler. */
  readonly url: string
  readonly workshop: Workshop
  readonly say: (line: string) => void
}

const UP_MS = 20_000
const REFUSED_MS = 60_000

/** Starts servers behind PgBouncer. Out: what is wrong with what they say, in words. */
export async function judgePoolers(pgbouncer: string | null, around: Around): Promise<string[]> {
  const { say, workshop } = around
  if (pgbouncer === null) {
    say('No server is started behind PgBouncer, which is not here (apt-get install pgbouncer)')
    return []
  }
  const lending = settingsOf(workshop, 'lent', await runPgbouncer(pgbouncer, 'transaction', around))
  const refused = await Promise.race([startRefused(lending), setTimeout(REFUSED_MS, null, { ref: false })])
  if (!refused?.printed.includes('pool_mode = session'))
    return [`A server behind PgBouncer in transaction mode is not refused: ${refused?.printed ?? 'it started'}`]
  say(`Behind PgBouncer in transaction mode a server ends, and says: ${refused.printed.trim()}`)
  const settings = settingsOf(workshop, 'kept', await runPgbouncer(pgbouncer, 'session', around))
  const product = await startProduct(settings)
  const { status } = await fetch(`${product.url}/api/health/ready`)
  await product.end('SIGTERM')
  if (status !== 200) return [`A server behind PgBouncer in session mode says that it is not ready: ${status}`]
  say('Behind PgBouncer in session mode a server starts, migrates and is ready')
  return []
}

/** Out: the address of the database by it. */
async function runPgbouncer(
  program: string,
  mode: 'transaction' | 'session',
  { url, workshop: { run, write } }: Around,
): Promise<string> {
  const port = await freePort()
  const name = `pgbouncer-${mode}`
  run(name, program, [write(`${name}.ini`, pgbouncerSettings(url, { port, mode }))])
  const by = new URL(url)
  by.port = String(port)
  await until('PgBouncer does not answer', UP_MS, async () => {
    const client = await tryConnect(by.href, 'reviewstand test')
    await client?.end()
    return client && true
  })
  return by.href
}
