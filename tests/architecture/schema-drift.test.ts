import fs from 'node:fs'
import path from 'node:path'
import pg from 'pg'
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest'
import { openSchemaEngine, type SchemaEngine, type SchemaSource } from '../support/schema-engine.ts'
import { createTestDatabase, type TestDatabase } from '../support/test-database.ts'

const prisma = path.resolve(import.meta.dirname, '../../prisma')
const schema = fs.readFileSync(path.join(prisma, 'schema.prisma'), 'utf8')

/**
 * What the migrations have and Prisma's schema language has no words for, or only at the price of a relation nobody asks
 * for. Checks, exclusions, triggers and partial indexes the engine does not look at.
 */
const beyondPrisma = [
  'ALTER TABLE "appointment" DROP CONSTRAINT "appointment_standard"',
  'ALTER TABLE "retest_span" DROP CONSTRAINT "retest_span_standard"',
  'ALTER TABLE "review" DROP CONSTRAINT "review_standard"',
  'ALTER TABLE "sheet" DROP CONSTRAINT "sheet_has_its_revision"',
  'DROP INDEX "unit_lineage"',
]

/** All as superuser: the engine creates databases. */
describe('schema.prisma, the migrations and a migrated database', () => {
  let database: TestDatabase
  let url: string
  let engine: SchemaEngine

  beforeAll(async () => {
    database = await createTestDatabase()
    const admin = new URL(inject('testServer'))
    admin.pathname = new URL(database.url).pathname
    url = admin.href
    engine = await openSchemaEngine(url, schema)
  })
  afterAll(async () => {
    await engine?.close()
    await database?.close()
  })

  const files = [{ path: 'prisma/schema.prisma', content: schema }]
  const datamodel: SchemaSource = { tag: 'schemaDatamodel', files }
  const live: SchemaSource = { tag: 'schemaDatasource', configDir: '.', files }
  const migrations = (): SchemaSource => ({
    tag: 'migrations',
    baseDir: prisma,
    lockfile: {
      path: 'migration_lock.toml',
      content: fs.readFileSync(path.join(prisma, 'migrations/migration_lock.toml'), 'utf8'),
    },
    shadowDbInitScript: '',
    migrationDirectories: fs
      .readdirSync(path.join(prisma, 'migrations'), { withFileTypes: true })
      .filter((entry) => entry.isDirectory())
      .map(({ name }) => name)
      .sort()
      .map((name) => ({
        path: name,
        migrationFile: {
          path: 'migration.sql',
          content: {
            tag: 'ok',
            value: fs.readFileSync(path.join(prisma, 'migrations', name, 'migration.sql'), 'utf8'),
          },
        },
      })),
  })

  it('say the same: migrations and schema.prisma', async () => {
    expect(await engine.statementsBetween(migrations(), datamodel)).toEqual(beyondPrisma)
  })

  it('say the same: the database and schema.prisma', async () => {
    expect(await engine.statementsBetween(live, datamodel)).toEqual(beyondPrisma)
  })

  it('would not pass for the same with one column more', async () => {
    const session = new pg.Client({ connectionString: url })
    await session.connect()
    try {
      await session.query('ALTER TABLE soldier ADD COLUMN rogue text')
      const found = await engine.statementsBetween(live, datamodel)
      expect(found).toContain('ALTER TABLE "soldier" DROP COLUMN "rogue"')
    } finally {
      await session.query('ALTER TABLE soldier DROP COLUMN IF EXISTS rogue')
      await session.end()
    }
  })
})
