import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import './fixed-seed.ts'
import { logRank } from '../../../../server/domain/statistics/survival/log-rank.ts'

const tally = fc.record({
  time: fc.integer({ min: 0, max: 25 }),
  events: fc.integer({ min: 0, max: 3 }),
  censored: fc.integer({ min: 0, max: 3 }),
})
const tallies = fc.array(tally, { minLength: 1, maxLength: 25 })
describe('log-rank', () => {
  const groups = fc
    .array(tallies, { minLength: 2, maxLength: 4 })
    .map((lists) => lists.map((list, i) => ({ key: `${i}`, tallies: list })))

  test('observed and expected events add up to the same; the order of groups does not matter', () => {
    fc.assert(
      fc.property(groups, (list) => {
        const result = logRank(list)
        const sum = (key: 'observed' | 'expected') => result.groups.reduce((total, group) => total + group[key], 0)
        expect(sum('expected')).toBeCloseTo(sum('observed'), 9)
        const reversed = logRank([...list].reverse())
        expect(reversed.kind).toBe(result.kind)
        if (result.kind !== 'compared' || reversed.kind !== 'compared') return
        expect(result.p >= 0 && result.p <= 1).toBe(true)
        expect(reversed.chiSquare).toBeCloseTo(result.chiSquare, 6)
        expect(reversed.degreesOfFreedom).toBe(result.degreesOfFreedom)
      }),
    )
  })

  test('is 0 between a group and its copy', () => {
    fc.assert(
      fc.property(tallies, (list) => {
        const result = logRank([
          { key: 'a', tallies: list },
          { key: 'b', tallies: list },
        ])
        if (result.kind === 'compared') expect(result.chiSquare).toBeCloseTo(0, 12)
      }),
    )
  })

  test('a group that left before anybody was certified is listed, and does not change the comparison', () => {
    const at = (time: number, events: number, censored = 0) => ({ time, events, censored })
    const a = { key: 'A', tallies: [at(3, 1), at(5, 1), at(9, 0, 2)] }
    const b = { key: 'B', tallies: [at(2, 2), at(4, 1), at(9, 1)] }
    const gone = { key: 'C', tallies: [at(1, 0, 4)] }
    const [without, beside] = [logRank([a, b]), logRank([gone, a, b])]
    if (without.kind !== 'compared' || beside.kind !== 'compared') throw new Error('not compared')
    expect(beside.chiSquare).toBeCloseTo(without.chiSquare, 12)
    expect(beside.degreesOfFreedom).toBe(1)
    expect(beside.groups[0]).toEqual({ key: 'C', subjects: 4, observed: 0, expected: 0, compared: false })
  })

  test('nothing to compare says why', () => {
    const waiting = { key: 'A', tallies: [{ time: 5, events: 0, censored: 3 }] }
    const done = { key: 'B', tallies: [{ time: 5, events: 3, censored: 0 }] }
    expect(logRank([waiting, { ...waiting, key: 'B' }])).toMatchObject({ kind: 'not-compared', reason: 'no-events' })
    expect(logRank([done])).toMatchObject({ kind: 'not-compared', reason: 'fewer-than-two-groups' })
    expect(logRank([done, { ...done, key: 'C' }])).toMatchObject({
      kind: 'not-compared',
      reason: 'fewer-than-two-groups',
    })
    expect(logRank([])).toMatchObject({ kind: 'not-compared', reason: 'no-events' })
  })
})
