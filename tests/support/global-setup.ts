import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import pg from 'pg'
import type { TestProject } from 'vitest/node'
import { startOwnPostgres } from '../../server/process/postgres/own-postgres.ts'
import { migrate } from '../../server/process/start/migrate.ts'

declare module 'vitest' {
  export interface ProvidedContext {
    /** Address of the superuser's database of the server all tests share. */
    testServer: string
  }
}

/** Starts a PostgreSQL for the tests, with one migrated database that every test file gets a copy of. */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
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
  return async () => {
    await server.stop()
    fs.rmSync(folder, { recursive: true })
  }
}
