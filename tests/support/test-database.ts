import { randomUUID } from 'node:crypto'
import pg from 'pg'
import { inject } from 'vitest'

export interface TestDatabase {
  url: string
  /** Removes it, whoever is still connected. */
  close(): Promise<void>
}

/** A migrated database without rows (but those of the migrations), for one test file or one test alone. */
export function createTestDatabase(): Promise<TestDatabase> {
  return createDatabase('template_of_tests')
}

/** A database with nothing in it at all. */
export function createEmptyDatabase(): Promise<TestDatabase> {
  return createDatabase('template0')
}

async function createDatabase(template: string): Promise<TestDatabase> {
  const name = `test_${randomUUID().replaceAll('-', '')}`
  await asAdmin(`CREATE DATABASE ${name} TEMPLATE ${template} OWNER reviewstand`)
  const url = new URL(inject('testServer'))
  url.username = 'reviewstand'
  url.pathname = `/${name}`
  return { url: url.href, close: () => asAdmin(`DROP DATABASE ${name} WITH (FORCE)`) }
}

async function asAdmin(statement: string): Promise<void> {
  const admin = new pg.Client({ connectionString: inject('testServer') })
  await admin.connect()
  try {
    await admin.query(statement)
  } finally {
    await admin.end()
  }
}
