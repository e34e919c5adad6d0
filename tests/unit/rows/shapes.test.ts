import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import fc from 'fast-check'
import { afterAll, describe, expect, it } from 'vitest'
import { findMisfit, LOOKED_AT } from '../../support/rows/find-misfit.ts'
import { readQueries, textOf } from '../../support/rows/read-queries.ts'

/** What a query of a type lets through and what it refuses, each a row. */
const TYPES: Record<string, { fits: unknown[]; misfits: [row: unknown, said: string][] }> = {
  '{ name: string }': {
    fits: [{ name: '' }, { name: 'Reed' }],
    misfits: [
      [{ name: null }, '[0].name: string expected, null came'],
      [{ name: 1 }, '[0].name: string expected, 1 came'],
      [{ Name: 'Reed' }, '[0].name: missing, there are Name'],
      [{}, '[0].name: missing, there are none'],
      [{ name: 'Reed', grade: 'E4' }, '[0].grade: the type does not name it'],
      [['Reed'], '[0]: record expected, list of 1 came'],
      [null, '[0]: record expected, null came'],
    ],
  },
  '{ count: number }': {
    fits: [{ count: 0 }, { count: 1.5 }],
    misfits: [
      [{ count: 3n }, '[0].count: number expected, 3n came'],
      [{ count: '3' }, '[0].count: number expected, "3" came'],
      [{ count: new (class Decimal {})() }, '[0].count: number expected, Decimal came'],
    ],
  },
  '{ revision: bigint }': {
    fits: [{ revision: 3n }],
    misfits: [[{ revision: 3 }, '[0].revision: bigint expected, 3 came']],
  },
  '{ late: boolean }': { fits: [{ late: false }], misfits: [[{ late: 0 }, '[0].late: boolean expected, 0 came']] },
  '{ since: Date }': {
    fits: [{ since: new Date(0) }],
    misfits: [[{ since: '2026-06-15' }, '[0].since: Date expected, "2026-06-15" came']],
  },
  '{ day: string }': { fits: [], misfits: [[{ day: new Date(0) }, '[0].day: string expected, Date came']] },
  '{ hash: Uint8Array }': {
    fits: [{ hash: new Uint8Array(2) }, { hash: Buffer.from('a') }],
    misfits: [[{ hash: '\\x00' }, '[0].hash: Uint8Array expected, "\\\\x00" came']],
  },
  '{ to: string | null }': {
    fits: [{ to: null }, { to: '2026-06-15' }],
    misfits: [
      [{}, '[0].to: missing, there are none'],
      [{ to: undefined }, '[0].to: null | string expected, undefined came'],
    ],
  },
  '{ to?: string }': {
    fits: [{}, { to: 'a' }],
    misfits: [[{ to: null }, '[0].to: string | undefined expected, null came']],
  },
  "{ state: 'held' | 'counted' }": {
    fits: [{ state: 'held' }],
    misfits: [[{ state: 'lost' }, '[0].state: "counted" | "held" expected, "lost" came']],
  },
  '{ level: 1 | 2; sure: true }': {
    fits: [{ level: 2, sure: true }],
    misfits: [
      [{ level: 3, sure: true }, '[0].level: 1 | 2 expected, 3 came'],
      [{ level: 1, sure: false }, '[0].sure: true expected, false came'],
    ],
  },
  '{ arms: readonly string[] }': {
    fits: [{ arms: [] }, { arms: ['rifle', 'sabre'] }],
    misfits: [
      [{ arms: null }, '[0].arms: list expected, null came'],
      [{ arms: ['rifle', 1] }, '[0].arms[1]: string expected, 1 came'],
      [{ arms: { 0: 'rifle' } }, '[0].arms: list expected, record of 0 came'],
    ],
  },
  '{ pair: [string, number | null]; more: [string, ...number[]] }': {
    fits: [{ pair: ['a', null], more: ['b', 1, 2] }],
    misfits: [
      [{ pair: ['a'], more: ['b'] }, '[0].pair: list of 2 expected, list of 1 came'],
      [{ pair: ['a', 1, 2], more: ['b'] }, '[0].pair: list of 2 expected, list of 3 came'],
      [{ pair: [1, 1], more: ['b'] }, '[0].pair[0]: string expected, 1 came'],
      [{ pair: ['a', 1], more: [] }, '[0].more: list of 1 or more expected, list of 0 came'],
      [{ pair: ['a', 1], more: ['b', 'c'] }, '[0].more[1]: number expected, "c" came'],
    ],
  },
  '{ patterns: Record<string, number> }': {
    fits: [{ patterns: {} }, { patterns: { a: 1, b: 2 } }],
    misfits: [[{ patterns: { a: 1, b: '2' } }, '[0].patterns.b: number expected, "2" came']],
  },
  "Record<'one' | 'two', number>": {
    fits: [{ one: 1, two: 2 }],
    misfits: [[{ one: 1 }, '[0].two: missing, there are one']],
  },
  '{ row: object }': {
    fits: [{ row: {} }, { row: [] }],
    misfits: [[{ row: null }, '[0].row: object expected, null came']],
  },
  '{ said: unknown }': { fits: [{ said: null }, { said: 1n }], misfits: [[{}, '[0].said: missing, there are none']] },
  Soldier: {
    fits: [{ id: 'a', grade: null }],
    misfits: [[{ id: 'a', grade: 4 }, '[0].grade: null | string expected, 4 came']],
  },
  'Promoted & { since: string }': {
    fits: [{ id: 'a', grade: null, from: 'E4', since: 'b' }],
    misfits: [[{ id: 'a', grade: null, from: 'E4' }, '[0].since: missing, there are id, grade, from']],
  },
  "Pick<Soldier, 'id'>": {
    fits: [{ id: 'a' }],
    misfits: [[{ id: 'a', grade: null }, '[0].grade: the type does not name it']],
  },
  "Omit<Promoted, 'id' | 'grade'>": {
    fits: [{ from: 'a' }],
    misfits: [[{ from: 1 }, '[0].from: string expected, 1 came']],
  },
  'Partial<Soldier>': {
    fits: [{}, { id: 'a' }],
    misfits: [[{ id: 1 }, '[0].id: string | undefined expected, 1 came']],
  },
  'Readonly<{ units: readonly Soldier[] }>': {
    fits: [{ units: [{ id: 'a', grade: null }] }],
    misfits: [[{ units: [{ id: 'a' }] }, '[0].units[0].grade: missing, there are id']],
  },
  "{ standing: Listed['items'][number] | null }": {
    fits: [{ standing: null }, { standing: { kind: 'test', tries: 2 } }, { standing: { kind: 'word', by: 'a' } }],
    misfits: [
      [
        { standing: { kind: 'word', tries: 2 } },
        '[0].standing.kind: "test" expected, "word" came, or [0].standing.by: missing, there are kind, tries',
      ],
      [{ standing: 'test' }, '[0].standing: null | record | record expected, "test" came'],
    ],
  },
  '{ score: z.infer<typeof Score> }': {
    fits: [{ score: { at: 'a', marks: [1] } }, { score: { at: 'a', marks: [], note: 'b' } }],
    misfits: [[{ score: { at: 'a', marks: ['1'] } }, '[0].score.marks[0]: number expected, "1" came']],
  },
  Tree: {
    fits: [{ name: 'a', under: [{ name: 'b', under: [] }] }],
    misfits: [[{ name: 'a', under: [{ name: 'b' }] }, '[0].under[0].under: missing, there are name']],
  },
}

/** Of these nothing can be said, nor of what contains them. */
const UNREADABLE = [
  'any',
  '() => void',
  'Map<string, string>',
  '{ id: symbol }',
  '{ id: Uppercase<string> }',
  'never',
  '[string?]',
]

const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'reviewstand-shapes-'))
afterAll(() => fs.rmSync(folder, { recursive: true }))

const write = (file: string, text: string) => fs.writeFileSync(path.join(folder, file), text)
write(
  'tsconfig.json',
  JSON.stringify({ compilerOptions: { strict: true, lib: ['es2023'], types: [], module: 'nodenext' } }),
)
write(
  'listed.ts',
  "export interface Listed { items: ({ kind: 'test'; tries: number } | { kind: 'word'; by: string })[] }",
)
fs.symlinkSync(path.resolve(import.meta.dirname, '../../../node_modules'), path.join(folder, 'node_modules'))
write('package.json', '{ "type": "module" }')
const HEAD = `
  interface Soldier { readonly id: string; readonly grade: string | null }
  interface Promoted extends Soldier { readonly from: string }
  type Tree = { name: string; under: Tree[] }
  interface Answering<T> extends Promise<T> {}
  declare const tx: { $queryRaw<T = unknown>(parts: TemplateStringsArray, ...values: unknown[]): Answering<T>
    $queryRawUnsafe<T>(text: string): Answering<T> }
  declare const question: [TemplateStringsArray, ...unknown[]]
`

/** What is read of the queries of a source. */
function readSource(lines: readonly string[]) {
  write('queries.ts', [...HEAD.trim().split('\n'), ...lines].join('\n'))
  return readQueries(folder, path.join(folder, 'tsconfig.json'), ['queries.ts'])
}

const firstLine = HEAD.trim().split('\n').length + 1

const names = Object.keys(TYPES)
const { shapes, queries, unreadable } = readSource([
  ...names.map((type) => `tx.$queryRaw<(${type})[]>\`SELECT\``),
  "import { z } from 'zod'",
  "import type { Listed } from './listed.js'",
  'const Score = z.object({ at: z.string(), marks: z.array(z.number()), note: z.string().optional() })',
])
const answerOf = new Map(names.map((type, place) => [type, queries[place]!.answer]))

it('reads each of the types', () => {
  expect(unreadable).toEqual([])
  expect(queries.map(({ place }) => place)).toEqual(names.map((_, line) => `queries.ts:${firstLine + line}`))
})

describe.each(Object.entries(TYPES))('rows of %s', (type, { fits, misfits }) => {
  const misfitOf = (row: unknown) => findMisfit(shapes, answerOf.get(type)!, [row])

  it('fit', () => {
    expect(fits.map(misfitOf)).toEqual(fits.map(() => null))
    expect(findMisfit(shapes, answerOf.get(type)!, fits)).toBeNull()
  })
  it('do not', () => {
    expect(misfits.map(([row]) => misfitOf(row))).toEqual(misfits.map(([, said]) => said))
  })
})

describe('an answer', () => {
  it('of one row has one', () => {
    const { shapes, queries } = readSource(['tx.$queryRaw<[{ count: number }]>`SELECT`'])
    const misfitOf = (rows: unknown) => findMisfit(shapes, queries[0]!.answer, rows)
    expect(misfitOf([{ count: 1 }])).toBeNull()
    expect(misfitOf([])).toBe('the answer: list of 1 expected, list of 0 came')
    expect(misfitOf([{ count: 1 }, { count: 2 }])).toBe('the answer: list of 1 expected, list of 2 came')
  })

  it('of many rows is looked at in places spread over all of it', () => {
    const rows = (count: number) => Array.from({ length: count }, () => ({ name: 'Reed' }))
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 2_000 }), fc.nat(), (count, from) => {
        const wrong = rows(count)
        const stretch = Math.ceil(count / LOOKED_AT)
        const first = from % (count - stretch + 1)
        wrong.fill({ name: null as never }, first, first + stretch)
        const misfit = findMisfit(shapes, answerOf.get('{ name: string }')!, wrong)
        expect(misfit).toMatch(/^\[\d+]\.name: string expected, null came$/)
      }),
      { seed: 1 },
    )
  })

  it('fits as it is made by its type, and not with one value of another kind in it', () => {
    const kinds = { string: fc.string(), number: fc.double(), bigint: fc.bigInt(), boolean: fc.boolean() }
    const kind = fc.constantFrom(...(Object.keys(kinds) as (keyof typeof kinds)[]))
    const fields = fc.dictionary(fc.stringMatching(/^[a-z]{1,8}$/), kind, { minKeys: 1, maxKeys: 6 })
    const written = fc.sample(fields, { numRuns: 40, seed: 1 })
    const typeOf = (each: Record<string, string>) => Object.entries(each).map(([name, is]) => `${name}: ${is}`)
    const { shapes, queries } = readSource(written.map((each) => `tx.$queryRaw<{ ${typeOf(each).join('; ')} }[]>\`\``))
    for (const [place, each] of written.entries()) {
      const rows = fc.array(fc.record(Object.fromEntries(Object.entries(each).map(([name, is]) => [name, kinds[is]]))))
      const misfitOf = (answer: unknown) => findMisfit(shapes, queries[place]!.answer, answer)
      const broken = fc.constantFrom(...Object.keys(each)).chain((name) => {
        const others = Object.entries(kinds).filter(([is]) => is !== each[name])
        return fc.tuple(fc.constant(name), fc.oneof(fc.constant(null), ...others.map(([, of]) => of)))
      })
      fc.assert(
        fc.property(rows, broken, (answer, [name, value]) => {
          expect(misfitOf(answer)).toBeNull()
          for (const row of answer.slice(0, 1)) {
            expect(misfitOf([{ ...row, [name]: value }])).toMatch(
              new RegExp(`^\\[0]\\.${name}: ${each[name]} expected`),
            )
          }
        }),
        { seed: 1 },
      )
    }
  })
})

describe('a query', () => {
  it('answers what the function says that hands it on', () => {
    const { shapes, queries } = readSource([
      'export function count(): Promise<{ count: number }[]> { return tx.$queryRaw`SELECT` }',
      'export const all = async (): Promise<Soldier[]> => tx.$queryRaw`SELECT`',
    ])
    expect(findMisfit(shapes, queries[0]!.answer, [{ count: '1' }])).toBe('[0].count: number expected, "1" came')
    expect(findMisfit(shapes, queries[1]!.answer, [{ id: 1, grade: null }])).toBe('[0].id: string expected, 1 came')
  })

  it('is known by what its tag is handed', () => {
    const parts = (of: TemplateStringsArray, ..._values: unknown[]) => textOf(of)
    // biome-ignore lint/suspicious/noTemplateCurlyInString: it is a source that is read
    const { queries } = readSource(['tx.$queryRaw`a${1}\\\\b\\n${2}`', 'tx.$queryRaw`a`'])
    expect(queries.map(({ text }) => text)).toEqual([parts`a${1}\\b\n${2}`, parts`a`])
  })

  it('that only hands on another one is none', () => {
    expect(readSource(['tx.$queryRaw(...question)'])).toMatchObject({ queries: [], unreadable: [] })
  })

  it('that is not written as a tag can not be read', () => {
    const said = ': It is not written as a tag: $queryRaw`…`'
    const { queries, unreadable } = readSource(['tx.$queryRaw<Soldier[]>(question[0])', "tx.$queryRawUnsafe('SELECT')"])
    expect(queries).toEqual([])
    expect(unreadable).toEqual([firstLine, firstLine + 1].map((line) => `queries.ts:${line}${said}`))
  })

  it('of what has no shape can not be read, however often and wherever it is met', () => {
    const { queries, unreadable } = readSource(
      UNREADABLE.flatMap((type) => [`tx.$queryRaw<(${type})[]>\`\``, `tx.$queryRaw<{ a: { b: ${type} }[] }[]>\`\``]),
    )
    expect(queries).toEqual([])
    expect(unreadable).toEqual(UNREADABLE.flatMap(() => [expect.anything(), expect.anything()]))
  })

  it('of what hangs on itself and has a part without a shape can not be read', () => {
    const { queries, unreadable } = readSource([
      'interface Above { below: Below; odd: any }',
      'interface Below { above: Above }',
      'tx.$queryRaw<Above[]>``',
      'tx.$queryRaw<Below[]>``',
    ])
    expect(queries).toEqual([])
    expect(unreadable).toHaveLength(2)
  })
})
