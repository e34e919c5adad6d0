import { parse } from 'csv-parse/sync'
import { stringify } from 'csv-stringify/sync'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { parseImportItem } from '../../../../server/contract/imports/parse-import-item.ts'
import { addDays, fromEpochDay } from '../../../../server/domain/calendar/plain-date.ts'
import type { ImportKind } from '../../../../server/domain/import/column.ts'
import { COLUMNS } from '../../../../server/domain/import/columns-of-kind.ts'
import { measureColumns } from '../../../../server/domain/import/measure-columns.ts'
import { printRows } from '../../../../server/domain/import/print-rows.ts'
import { readFields } from '../../../../server/domain/import/read-fields.ts'
import { toItems } from '../../../../server/domain/import/to-item.ts'

const RUNS = { seed: 20261125, numRuns: 300 }
const code = fc.stringMatching(/^[A-Za-z][A-Za-z0-9_.]{0,12}$/)
/** Anything that can be stored and does not begin or end blank or like a formula, which is guarded when the file is written. */
const words = fc
  .string({ minLength: 1, maxLength: 30, unit: 'grapheme' })
  .filter((text) => text === text.trim() && text !== '' && !/\0|\p{Surrogate}/u.test(text) && !/^['=+\-@]/.test(text))
const number = fc.stringMatching(/^[A-Z0-9]{1,8}$/)
const day = fc.integer({ min: -10_000, max: 40_000 }).map(fromEpochDay)
const instant = fc.integer({ min: 0, max: 4_000_000_000 }).map((seconds) => new Date(seconds * 1000).toISOString())
const maybe = <Value>(value: fc.Arbitrary<Value>) => fc.option(value, { nil: undefined })

const standard = {
  code: 'std',
  rule: { trials: 3 },
  majors: [{ code: 'composure', title: 'Composure' }],
  minors: [
    { code: 'draw', title: 'Draw', gauges: [] as string[] },
    { code: 'halt', title: 'Halt', gauges: ['tip'] },
    { code: 'turn', title: 'Turn', gauges: ['tip', 'hilt'] },
  ],
}

const faults = fc.uniqueArray(fc.record({ code, title: words }), { maxLength: 3, selector: (one) => one.code })
const checks = fc.array(fc.record({ code, title: words, kind: fc.constantFrom('fits', 'looks'), arm: maybe(code) }), {
  maxLength: 3,
})
const decimal = fc.stringMatching(/^-?[0-9]{1,4}(\.[0-9]{1,4})?$/)
const lines = fc.array(words, { maxLength: 3 })

/** Every part of a standard, each with everything that may be said of it. */
const aStandard = fc.record({
  code,
  version: fc.integer({ min: 1, max: 9 }),
  title: words,
  arms: fc.uniqueArray(code, { maxLength: 2 }).filter((arms) => !arms.some((arm) => /^no(ne)?$/i.test(arm))),
  task: words,
  conditions: lines,
  standard: words,
  references: fc.array(fc.record({ title: words, edition: fc.oneof(words, fc.constant('')) }), { maxLength: 2 }),
  rule: fc.record({
    trials: fc.integer({ min: 3, max: 9 }),
    needed: fc.integer({ min: 1, max: 3 }),
    percent: fc.constantFrom('80', '66.7'),
  }),
  majors: fc.uniqueArray(fc.record({ code, title: words, criteria: lines, faults }), {
    maxLength: 2,
    selector: (one) => one.code,
  }),
  minors: fc.uniqueArray(
    fc.record({
      code: code.map((one) => `m-${one}`),
      title: words,
      counts: fc.option(fc.integer({ min: 1, max: 99 })),
      gauges: fc.uniqueArray(fc.constantFrom('tip', 'hilt'), { maxLength: 2 }),
      checks: fc.record({ preparatory: checks, execution: checks }),
      faults,
    }),
    { minLength: 1, maxLength: 3, selector: (one) => one.code },
  ),
  gauges: fc
    .tuple(words, words, decimal, fc.option(decimal), maybe(decimal), maybe(code), maybe(words))
    .map(([title, unit, min, max, target, low, origin]) =>
      ['tip', 'hilt'].map((one) => ({
        code: one,
        title,
        unit: unit.slice(0, 5).trim() || 'in',
        min,
        max,
        target,
        low,
        origin,
      })),
    ),
  calls: fc.array(
    fc.record({
      measure: code,
      trial: fc.integer({ min: 1, max: 9 }),
      from: maybe(words),
      preparatory: maybe(words),
      execution: maybe(fc.oneof(words, fc.dictionary(code, words, { minKeys: 1, maxKeys: 2 }))),
      cadence: maybe(words),
      finish: maybe(lines),
      unbroken: maybe(code),
      steps: maybe(lines),
      readable: maybe(fc.boolean()),
    }),
    { maxLength: 4 },
  ),
  cautions: lines,
  effectiveFrom: day,
  equivalentToPrevious: fc.boolean(),
})

const ITEMS: Partial<Record<ImportKind, fc.Arbitrary<Record<string, unknown>>>> = {
  roster: fc.record({
    rosterNumber: number,
    familyName: maybe(words),
    givenName: maybe(words),
    grade: maybe(code),
    arms: maybe(fc.uniqueArray(code, { maxLength: 3 }).filter((arms) => !arms.some((arm) => /^no(ne)?$/i.test(arm)))),
    unit: maybe(words),
    from: day,
    left: maybe(fc.constantFrom('transferred', 'separated', 'other')),
  }),
  awards: fc
    .record({ rosterNumber: number, certification: words, awardedOn: day, length: fc.nat(1000), evidence: words })
    .map(({ length, ...award }) => ({ ...award, validThrough: addDays(award.awardedOn, length) })),
  sponsorships: fc
    .record({ candidate: number, sponsor: number, from: day, length: maybe(fc.nat(1000)) })
    .map(({ length, ...one }) => ({ ...one, to: length === undefined ? undefined : addDays(one.from, length) })),
  standards: aStandard,
  appointments: fc.record({ rosterNumber: number, standard: words, from: day }),
  ceremonies: fc.record({
    title: words,
    place: words,
    unit: words,
    startsAt: instant,
    endsAt: instant,
    posts: fc.array(
      fc.record({
        title: words,
        row: fc.integer({ min: 1, max: 50 }),
        place: fc.integer({ min: 1, max: 100 }),
        certification: words,
        arm: maybe(code),
        grades: maybe(
          fc
            .uniqueArray(code, { minLength: 1, maxLength: 3 })
            .filter((grades) => !grades.some((grade) => /^no(ne)?$/i.test(grade))),
        ),
        rosterNumber: maybe(number),
      }),
      { minLength: 1, maxLength: 4 },
    ),
  }),
  sheets: fc.record({
    id: fc.uuid(),
    purpose: fc.constantFrom('test', 'practice'),
    standard: fc.constant('std'),
    standardVersion: fc.integer({ min: 1, max: 99 }),
    arm: maybe(code),
    candidate: number,
    sponsor: maybe(number),
    grader: number,
    secondOf: maybe(fc.uuid()),
    startedAt: instant,
    finishedAt: instant,
    conditions: fc.record({ uniform: fc.boolean(), equipment: fc.boolean(), sponsorPresent: fc.boolean() }),
    majors: fc
      .record({
        mark: fc.constantFrom('GO', 'NO-GO'),
        atCall: maybe(fc.nat(50)),
        faults: fc.uniqueArray(code, { maxLength: 3 }),
        note: maybe(words),
      })
      .map((major) => [{ code: 'composure', ...major }]),
    minors: fc.tuple(
      ...standard.minors.map(({ code: measure, gauges }) =>
        fc.record({
          code: fc.constant(measure),
          trials: fc.array(fc.constantFrom('correct', 'incorrect'), { minLength: 1, maxLength: 3 }),
          faults: fc.array(fc.record({ trial: fc.integer({ min: 1, max: 3 }), code }), { maxLength: 3 }),
          readings:
            gauges.length === 0
              ? fc.constant([])
              : fc.array(
                  fc.record({
                    trial: fc.integer({ min: 1, max: 3 }),
                    gauge: fc.constantFrom(...gauges),
                    value: fc.stringMatching(/^-?[0-9]{1,4}(\.[0-9]{1,4})?$/),
                    override: fc.option(words),
                  }),
                  { maxLength: 3 },
                ),
        }),
      ),
    ),
    pauses: fc.array(fc.record({ from: instant, to: fc.option(instant), note: words }), { maxLength: 2 }),
    void: maybe(fc.record({ kind: fc.constantFrom('weather', 'other'), text: words })),
    notes: words,
    acknowledged: fc.array(fc.record({ rosterNumber: number, at: instant }), { maxLength: 2 }),
  }),
}

/** Through a CSV file and back, as the product does it. */
function through(kind: ImportKind, item: Record<string, unknown>): unknown {
  const columns = kind === 'sheets' ? [...COLUMNS.sheets, ...measureColumns([standard])] : COLUMNS[kind]
  const text = stringify([columns.map(({ title }) => title), ...printRows(kind, item, columns, standard)], {
    record_delimiter: 'windows',
  })
  const table = parse(text, { relax_quotes: true }) as string[][]
  const mapping = Object.fromEntries(columns.map(({ key }, index) => [key, index]))
  const rows = table.slice(1).map((cells, index) => ({
    number: index + 2,
    ...readFields({ number: index + 2, cells }, { columns, mapping, dates: {} }),
  }))
  const items = toItems(kind, rows, () => standard)
  expect(items).toHaveLength(1)
  expect(items[0]!.problems).toEqual([])
  return parseImportItem(kind, items[0]!.value)
}

/** Not said, null and nothing are the same. */
const plain = (value: unknown): unknown =>
  JSON.parse(
    JSON.stringify(value, (_, part) =>
      part === null || (Array.isArray(part) && part.length === 0) ? undefined : part,
    ),
  )

describe('what is written into a table is what is read from it (property)', () => {
  it.each(Object.entries(ITEMS))('%s', (kind, arbitrary) => {
    fc.assert(
      fc.property(arbitrary, (item) => {
        const direct = parseImportItem(kind as ImportKind, item)
        fc.pre('item' in direct)
        const read = through(kind as ImportKind, item)
        expect(plain(read)).toEqual(plain(direct))
      }),
      RUNS,
    )
  })
})
