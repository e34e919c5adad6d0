import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import pg from 'pg'
import type { TestProject } from 'vitest/node'
import { startOwnPostgres } from '../../server/process/postgres/own-postgres.ts'
import { migrate } from '../../server/process/start/migrate.ts'
import { compileServer } from './compile-server.ts'
import { knownQueries } from './rows/known-queries.ts'
import type { RawQueries } from './rows/read-queries.ts'

declare module 'vitest' {
  export interface ProvidedContext {
    /** Address of the superuser's database of the server all tests share. */
    testServer: string
    /** Files: all raw queries of the server; the places of those that were answered with a row, one a line. */
    rawQueries: { list: string; answered: string }
  }
}

/**
 * Compiles the server, for tests that start it as a process, and starts a PostgreSQL for the tests, with one migrated database that
 * every test file gets a copy of.
 */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  compileServer()
  const known = knownQueries()
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'reviewstand-test-'))
  fs.chmodSync(folder, 0o711)
  const lost = () => {
    throw new Error("The tests' PostgreSQL has ended.")
  }
  const server = await startOwnPostgres(folder, { durable: false, say: console.log, onLost: lost })
  await migrate(server.url)
  const admin = new pg.Client({ connectionString: server.adminUrl })
  await admin.connect()
  await admin.query('ALTER DATABASE reviewstand RENAME TO template_of_tests')
  await admin.end()
  project.provide('testServer', server.adminUrl)
  const rawQueries = { list: path.join(folder, 'raw-queries.json'), answered: path.join(folder, 'answered.txt') }
  fs.writeFileSync(rawQueries.list, JSON.stringify(known))
  project.provide('rawQueries', rawQueries)
  return async () => {
    await server.stop()
    if (process.env.UNANSWERED) fs.writeFileSync(process.env.UNANSWERED, unanswered(known, rawQueries.answered))
    fs.rmSync(folder, { recursive: true })
  }
}

/** Places of queries that were answered with a row by nobody, one a line. */
function unanswered({ queries }: RawQueries, answered: string): string {
  const seen = new Set(fs.existsSync(answered) ? fs.readFileSync(answered, 'utf8').split('\n') : [])
  return queries.flatMap(({ place }) => (seen.has(place) ? [] : `${place}\n`)).join('')
}
