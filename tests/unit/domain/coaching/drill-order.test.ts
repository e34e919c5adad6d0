import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { drillOrder } from '../../../../server/domain/coaching/drill-order.ts'
import { type MarkedTest, measureHistories } from '../../../../server/domain/coaching/measure-history.ts'

const definition = {
  majors: [{ code: 'uniform' }],
  minors: [{ code: 'draw' }, { code: 'return' }, { code: 'halt' }, { code: 'face' }],
}
const definitions = new Map([[1, definition]])
const test = (day: string, marks: string): MarkedTest => ({ day, version: 1, marks })
const order = (tests: MarkedTest[], shares: Record<string, number> = {}) =>
  drillOrder(measureHistories(tests, definitions, definition), (measure) => shares[measure] ?? null)
const names = (tests: MarkedTest[], shares?: Record<string, number>) =>
  order(tests, shares).map(({ measure, reason }) => `${measure} ${reason}`)

describe('what to drill first', () => {
  it('is what was never GO, before what was GO once, both NO-GO when last tested', () => {
    expect(names([test('2026-01-01', 'GGNGG'), test('2026-02-01', 'GNNGG')])).toEqual([
      'return never-go',
      'draw no-go-last',
      'uniform always-go',
      'halt always-go',
      'face always-go',
    ])
  })

  it('is a major before any minor, since it ends the test, and then what no test reached', () => {
    expect(names([test('2026-01-01', 'NNG--')])).toEqual([
      'uniform never-go',
      'draw never-go',
      'halt not-tested',
      'face not-tested',
      'return always-go',
    ])
  })

  it('is the one failed later, then more in a row, then the higher share, then that of the unit, then the order called', () => {
    const later = [test('2026-01-01', 'GNNGG'), test('2026-02-01', 'G-NGG')]
    expect(names(later).slice(0, 2)).toEqual(['return never-go', 'draw never-go'])
    const row = [test('2026-01-01', 'GGGGG'), test('2026-02-01', 'GGNGG'), test('2026-03-01', 'GNNGG')]
    expect(names(row).slice(0, 2)).toEqual(['return no-go-last', 'draw no-go-last'])
    const unit = [test('2026-01-01', 'GNGNG')]
    expect(names(unit, { draw: 0.1, halt: 0.4 }).slice(0, 2)).toEqual(['halt never-go', 'draw never-go'])
    expect(names(unit).slice(0, 2)).toEqual(['draw never-go', 'halt never-go'])
  })

  it('is, before any test, what the unit’s first-timers fail most', () => {
    expect(names([], { face: 0.5, draw: 0.3 })).toEqual([
      'face not-tested',
      'draw not-tested',
      'uniform not-tested',
      'return not-tested',
      'halt not-tested',
    ])
  })

  it('names as improved what was NO-GO and has been GO in every test since, with both days', () => {
    const [first] = order([test('2026-01-01', 'GNGGG'), test('2026-02-01', 'GGGGG'), test('2026-03-01', 'GGGGG')])
    expect(first).toMatchObject({
      measure: 'draw',
      reason: 'go-since',
      improved: { noGoOn: '2026-01-01', goOn: '2026-02-01' },
    })
    expect(order([test('2026-01-01', 'GNGGG'), test('2026-02-01', 'G-GGG')])[0]).toMatchObject({ improved: null })
  })

  it('matches measures by code where a later version calls them in another order or has others', () => {
    const second = { majors: [], minors: [{ code: 'halt' }, { code: 'draw' }, { code: 'mark-time' }] }
    const both = new Map([...definitions, [2, second] as const])
    const tests = [test('2026-01-01', 'GNGGG'), { day: '2026-02-01', version: 2, marks: 'GNN' }]
    const found = drillOrder(measureHistories(tests, both, second))
    expect(found.map(({ measure, tested, noGo }) => [measure, tested, noGo])).toEqual([
      ['draw', 2, 2],
      ['mark-time', 1, 1],
      ['halt', 2, 0],
    ])
  })

  const mark = fc.constantFrom('G', 'N', '-')
  const tests = fc
    .array(fc.array(mark, { minLength: 5, maxLength: 5 }), { maxLength: 30 })
    .map((all) => all.map((marks, at) => test(`2026-01-${String(at + 1).padStart(2, '0')}`, marks.join(''))))

  it('holds every measure once and never puts one that was GO last before one that was NO-GO last', () => {
    fc.assert(
      fc.property(tests, (all) => {
        const found = order(all)
        expect(found.map(({ measure }) => measure).sort()).toEqual(['draw', 'face', 'halt', 'return', 'uniform'])
        const failing = found.map(({ inARow, tested }) => tested > 0 && inARow > 0)
        expect(failing).toEqual([...failing].sort((a, b) => Number(b) - Number(a)))
        for (const { tested, noGo, inARow, improved, lastNoGo } of found) {
          expect(noGo).toBeLessThanOrEqual(tested)
          expect(inARow).toBeLessThanOrEqual(noGo)
          expect(lastNoGo === null).toBe(noGo === 0)
          if (improved) expect(improved.noGoOn < improved.goOn).toBe(true)
        }
      }),
      { seed: 20261125 },
    )
  })
})
