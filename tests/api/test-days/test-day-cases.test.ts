import { randomUUID } from 'node:crypto'
import fs from 'node:fs'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { ScoredSheet, SheetResult, StoredSheet } from '../../../server/contract/sheets/sheets.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { countRows } from '../../support/count-rows.ts'
import { makeCertification, makeSoldier, makeUnit } from '../../support/factories.ts'
import { type SheetInput, times } from '../../support/sheet-body.ts'

interface Case {
  readonly name: string
  readonly sheet: Pick<SheetInput, 'standard' | 'standardVersion' | 'arm' | 'majors' | 'minors'>
  readonly expected: (Omit<SheetResult, 'attempts'> & { malformed?: undefined }) | { malformed: string }
}

const read = (name: string) => JSON.parse(fs.readFileSync(new URL(`../../cases/${name}.json`, import.meta.url), 'utf8'))
/** Sheets with what they come to, worked out by an independent implementation. */
const { cases } = read('test-day') as { cases: Case[] }

/** The rule in the problem's type, by what the cases call what is wrong; what is no sheet at all is told by its form. */
const RULES: Record<string, string> = {
  'unknown major': 'unknown-major',
  'repeated major': 'repeated-major',
  'unknown measure': 'unknown-measure',
  'repeated measure': 'repeated-measure',
  'too many trials': 'too-many-trials',
  'unknown mark': 'not-an-allowed-value',
  'blank between marks': 'blank-between-marks',
  'unknown fault': 'unknown-fault',
  'repeated fault': 'repeated-fault',
  'fault on a blank trial': 'fault-on-blank',
  'gauge not of this measure': 'gauge-not-of-measure',
  'two readings of one gauge': 'repeated-reading',
  'reading on a blank trial': 'reading-on-blank',
  value: 'wrong-format',
  'numeric value': 'wrong-type',
  'override inside the band': 'override-inside-band',
  'blank override': 'override-blank',
  atCall: 'at-call',
  'mark after the end': 'mark-after-end',
}

describe('the sheets of a test day', () => {
  let test: TestApp
  let people: Pick<SheetInput, 'candidateId' | 'sponsorId' | 'graderId'>
  let before: Record<string, number>
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
    before = await countRows(test)
  })
  afterAll(() => test.close())

  const bodyOf = ({ sheet }: Case): SheetInput => {
    hour += 1
    return { ...sheet, ...people, ...times(`2026-03-${String(1 + Math.floor(hour / 20)).padStart(2, '0')}`, hour % 20) }
  }

  it.each(cases.filter(({ expected }) => expected.malformed))('$name is refused', async (one) => {
    const body = bodyOf(one)
    for (const [method, path] of [
      ['PUT', `/api/sheets/${randomUUID()}`],
      ['POST', '/api/sheets/score'],
    ] as const) {
      const problem = await test.office.refused(422, method, path, body)
      const rule = RULES[one.name.includes('numeric') ? 'numeric value' : one.expected.malformed!]
      expect(problem.type).toBe(`urn:reviewstand:problem:${rule}`)
      expect(problem.errors).toContainEqual({ pointer: expect.any(String), rule, detail: expect.any(String) })
      for (const { pointer } of problem.errors!) expect(isInside(body, pointer), pointer).toBe(true)
    }
  })

  it('that are malformed have changed nothing', async () => {
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
    expect(stored).toEqual({
      id: path.split('/').at(-1),
      state: expect.any(String),
      arrivedLate: expect.any(Boolean),
      ...scored,
    })
    expect(await test.office.get(path)).toMatchObject({ ...body, result: { ...expected, attempts } })
  })

  it('are as many as there should be', () => {
    const kinds = cases.map(({ expected }) => (expected.malformed ? 'malformed' : (expected as SheetResult).ending))
    const count = (kind: string) => kinds.filter((one) => one === kind).length
    expect(['malformed', 'completed', 'stopped', 'void', 'unfinished'].map(count)).toEqual([44, 35, 10, 5, 5])
  })
})

/** Whether the pointer leads into the body, or to a member that its place lacks. */
function isInside(body: unknown, pointer: string): boolean {
  const steps = pointer.split('/').slice(1)
  const parent = steps
    .slice(0, -1)
    .reduce<unknown>((value, step) => (value as Record<string, unknown> | undefined)?.[step], body)
  return typeof parent === 'object' && parent !== null
}
