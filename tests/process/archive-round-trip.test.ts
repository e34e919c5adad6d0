import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { restoreArchive } from '../../server/archive/restore-archive.ts'
import { saveArchive } from '../../server/archive/save-archive.ts'
import { connected, contentOf } from '../support/content-of.ts'
import { createEmptyDatabase, createTestDatabase } from '../support/test-database.ts'

/** What PostgreSQL can store: all of Unicode but NUL and half surrogate pairs. */
const text = fc
  .string({ unit: 'grapheme', minLength: 1, maxLength: 20 })
  .filter((value) => value.trim() !== '' && !value.includes('\0'))
const oddText = fc.oneof(text, fc.constantFrom('\\N', '\\.', '"', "'", '\\u0041', 'a\tb\r\nc', '{"a":1}', 'ﬀ\u202e'))
const day = fc.date({ min: new Date('1900-01-01'), max: new Date('2200-12-31'), noInvalidDate: true })
const plainDay = day.map((value) => value.toISOString().slice(0, 10))
const json = fc
  .jsonValue({ maxDepth: 3, stringUnit: 'grapheme' })
  .filter((value) => !JSON.stringify(value).includes('\\u0000'))

/** A small world, whatever its rows mean: what the schema lets in must come back as it was. */
const world = fc.record({
  units: fc.array(oddText, { minLength: 1, maxLength: 4 }),
  soldiers: fc.array(
    fc.record({
      familyName: oddText,
      givenName: oddText,
      heightCm: fc.option(fc.integer({ min: 100, max: 250 })),
      from: plainDay,
      grade: text,
      arms: fc.option(fc.array(oddText, { maxLength: 3 })),
      kind: fc.constantFrom('leave', 'course', 'duty elsewhere', 'not available'),
      days: fc.option(fc.nat(4000)),
    }),
    { maxLength: 8 },
  ),
  entries: fc.array(fc.record({ at: day, action: oddText, reason: fc.option(oddText), before: json, after: json }), {
    maxLength: 6,
  }),
  accounts: fc.uniqueArray(oddText, { maxLength: 4, selector: (name) => name.toLowerCase() }),
})

type World = typeof world extends fc.Arbitrary<infer Value> ? Value : never

async function fill(url: string, { units, soldiers, entries, accounts }: World): Promise<void> {
  const client = await connected(url)
  let parent: string | null = null
  for (const name of units) {
    const { rows }: { rows: { id: string }[] } = await client.query(
      'INSERT INTO unit (name, kind, parent_id) VALUES ($1, $2, $3) RETURNING id',
      [name, parent === null ? 'unit' : 'company', parent],
    )
    parent = rows[0]!.id
  }
  for (const [place, one] of soldiers.entries()) {
    const { rows } = await client.query<{ id: string }>(
      `INSERT INTO soldier (roster_number, family_name, given_name, height_cm) VALUES ($1, $2, $3, $4) RETURNING id`,
      [`${place} ${one.familyName}`, one.familyName, one.givenName, one.heightCm],
    )
    const id = rows[0]!.id
    await client.query(
      'INSERT INTO soldier_change (soldier_id, from_day, grade, arms, unit_id) VALUES ($1, $2, $3, $4, $5)',
      [id, one.from, one.grade, one.arms && JSON.stringify(one.arms), parent],
    )
    await client.query(
      'INSERT INTO soldier_period (soldier_id, from_day, unit_id, grade, arms) VALUES ($1, $2, $3, $4, $5)',
      [id, one.from, parent, one.grade, one.arms ?? []],
    )
    await client.query(
      'INSERT INTO absence (soldier_id, from_day, through_day, kind) VALUES ($1, $2, $2::date + $3::int, $4)',
      [id, one.from, one.days, one.kind],
    )
  }
  for (const { at, action, reason, before, after } of entries) {
    await client.query(
      `INSERT INTO record_entry (at, action, subject_kind, reason, before, after) VALUES ($1, $2, 'x', $3, $4, $5)`,
      [at, action, reason, JSON.stringify(before), JSON.stringify(after)],
    )
  }
  for (const name of accounts) {
    await client.query(`INSERT INTO account (name, roles, created_at) VALUES ($1, '{office}', now())`, [name])
  }
  await client.end()
}

describe('the archive of any world', () => {
  let folder: string
  beforeAll(() => {
    folder = fs.mkdtempSync(path.join(os.tmpdir(), 'reviewstand-round-trip-'))
  })
  afterAll(() => fs.rmSync(folder, { recursive: true }))

  it('restores it table by table, and the archive of that is the same again', async () => {
    let tried = 0
    await fc.assert(
      fc.asyncProperty(world, async (drawn) => {
        tried += 1
        const [source, target] = await Promise.all([createTestDatabase(), createEmptyDatabase()])
        try {
          await fill(source.url, drawn)
          const [first, second] = [1, 2].map((copy) => path.join(folder, `${tried}-${copy}.tar.gz`)) as [string, string]
          const one = await connected(source.url)
          const before = await saveArchive(one, first, { timeZone: 'UTC', product: '0.1.0' })
          await one.end()
          await restoreArchive(target.url, first)
          expect(await contentOf(target.url)).toEqual(await contentOf(source.url))
          const other = await connected(target.url)
          const after = await saveArchive(other, second, { timeZone: 'UTC', product: '0.1.0' })
          await other.end()
          expect(after.files.slice(1)).toEqual(before.files.slice(1))
        } finally {
          await Promise.all([source.close(), target.close()])
        }
      }),
      { numRuns: 8, seed: 20_261_125, endOnFailure: true },
    )
    expect(tried).toBe(8)
  })
})
