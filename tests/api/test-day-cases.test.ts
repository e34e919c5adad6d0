import { randomUUID } from 'node:crypto'
import fs from 'node:fs'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { ScoredSheet, SheetResult, StoredSheet } from '../../server/contract/sheets.ts'
import { buildTestApp, type TestApp } from '../support/build-test-app.ts'
import { countRows } from '../support/count-rows.ts'
import { makeCertification, makeSoldier, makeUnit } from '../support/factories.ts'
import { type SheetInput, times } from '../support/sheet-body.ts'

interface Case {
  readonly name: string
  readonly sheet: Pick<SheetInput, 'standard' | 'standardVersion' | 'arm' | 'majors' | 'minors'>
  readonly expected: (Omit<SheetResult, 'attempts'> & { malformed?: undefined }) | { malformed: string }
}

const read = (name: string) =>
  JSON.parse(fs.readFileSync(new URL(`../cases/${name}.json`, import.meta.url), 'utf8'))
/** Sheets with what they come to, worked out by an independent implementation. */
const { cases } = read('test-day') as { cases: Case[] }

/** The rules of a malformed sheet by what the cases call them. */
const RULES: Record<string, RegExp> = {
  'repeated measure': /^repeated-measure$/,
  'unknown measure': /^unknown-measure$/,
  'unknown major': /^unknown-major$/,
  'repeated major': /^repeated-major$/,
}

describe('the sheets of a test day', () => {
  let test: TestApp
  let people: Pick<SheetInput, 'candidateId' | 'sponsorId' | 'graderId'>
  let hour = 0

  beforeAll(async () => {
    test = await buildTestApp()
    const { id } = await test.office.post('/api/standards', read('standard-standing'))
    await test.office.post(`/api/standards/${id}/publish`, undefined, 200)
    const unitId = await makeUnit(test.office)
    await makeCertification(test.office, { code: 'sword', standards: ['sword-saber-standing'], arms: ['sword'] })
    people = {
      candidateId: await makeSoldier(test.office, unitId),
      sponsorId: await makeSoldier(test.office, unitId),
      graderId: await makeSoldier(test.office, unitId),
    }
  })
  afterAll(() => test.close())

  const bodyOf = ({ sheet }: Case): SheetInput => {
    hour += 1
    return { ...sheet, ...people, ...times(`2026-03-${String(1 + Math.floor(hour / 20)).padStart(2, '0')}`, hour % 20) }
  }

  it.each(cases.filter(({ expected }) => expected.malformed))('$name is refused', async (one) => {
    const body = bodyOf(one)
    const before = await countRows(test)
    for (const [method, path] of [
      ['PUT', `/api/sheets/${randomUUID()}`],
      ['POST', '/api/sheets/score'],
    ] as const) {
      const problem = await test.office.refused(422, method, path, body)
      const kind = RULES[one.expected.malformed!]
      if (kind) expect(problem.errors?.[0]?.rule).toMatch(kind)
      expect(problem.errors?.length).toBeGreaterThan(0)
      for (const { pointer } of problem.errors!) expect(atPointer(body, pointer), pointer).toBe(true)
    }
    expect(await countRows(test)).toEqual(before)
  })

  it.each(cases.filter(({ expected }) => !expected.malformed))('$name comes to what it must', async (one) => {
    const body = bodyOf(one)
    const expected = one.expected as Omit<SheetResult, 'attempts'>
    const scored = await test.office.post<ScoredSheet>('/api/sheets/score', body, 200)
    const { attempts, ...result } = scored.result
    expect(result).toEqual(expected)
    const path = `/api/sheets/${randomUUID()}`
    if (expected.ending === 'unfinished') {
      const problem = await test.office.refused(422, 'PUT', path, body)
      expect(problem.type).toBe('urn:reviewstand:problem:unfinished')
      await test.office.refused(404, 'GET', path)
      return
    }
    const stored = await test.office.put<StoredSheet>(path, body)
    expect(stored).toEqual({ id: path.split('/').at(-1), state: expect.any(String), ...scored })
    expect(await test.office.get(path)).toMatchObject({ ...body, result: { ...expected, attempts } })
  })

  it('are as many as there should be', () => {
    const kinds = cases.map(({ expected }) => (expected.malformed ? 'malformed' : (expected as SheetResult).ending))
    const count = (kind: string) => kinds.filter((one) => one === kind).length
    expect(['malformed', 'completed', 'stopped', 'void', 'unfinished'].map(count)).toEqual([44, 35, 10, 5, 5])
  })
})

/** Whether the pointer leads into the body, or to a member that its place lacks. */
function atPointer(body: unknown, pointer: string): boolean {
  const steps = pointer.split('/').slice(1)
  const parent = steps
    .slice(0, -1)
    .reduce<unknown>((value, step) => (value as Record<string, unknown> | undefined)?.[step], body)
  return typeof parent === 'object' && parent !== null
}
