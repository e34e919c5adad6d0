import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { addDays } from '../../../../server/domain/calendar/plain-date.ts'
import { type SoldierChange, soldierPeriods } from '../../../../server/domain/people/soldier-periods.ts'

const change = (from: string, more: Partial<SoldierChange>, entry = 1): SoldierChange => ({
  from,
  grade: null,
  arms: null,
  unitId: null,
  left: null,
  entry,
  ...more,
})
const JOINED = change('2026-01-01', { unitId: 'A', grade: 'SGT', arms: ['sword'] })

describe('periods of a soldier', () => {
  it('begin on the day of joining and have no end', () => {
    expect(soldierPeriods([JOINED])).toEqual([
      { from: '2026-01-01', through: null, unitId: 'A', grade: 'SGT', arms: ['sword'] },
    ])
  })

  it('change with one thing and keep the others', () => {
    const periods = soldierPeriods([
      JOINED,
      change('2026-02-01', { unitId: 'B' }),
      change('2026-03-01', { grade: 'SSG' }),
      change('2026-04-01', { arms: [] }),
    ])
    expect(periods.map(({ from, through, unitId, grade, arms }) => [from, through, unitId, grade, arms])).toEqual([
      ['2026-01-01', '2026-01-31', 'A', 'SGT', ['sword']],
      ['2026-02-01', '2026-02-28', 'B', 'SGT', ['sword']],
      ['2026-03-01', '2026-03-31', 'B', 'SSG', ['sword']],
      ['2026-04-01', null, 'B', 'SSG', []],
    ])
  })

  it('end the day before leaving, and begin anew with a unit', () => {
    const periods = soldierPeriods([
      JOINED,
      change('2026-02-01', { left: 'transferred' }),
      change('2026-02-15', { grade: 'SSG' }),
      change('2026-03-01', { unitId: 'C' }),
    ])
    expect(periods.map(({ from, through, unitId, grade }) => [from, through, unitId, grade])).toEqual([
      ['2026-01-01', '2026-01-31', 'A', 'SGT'],
      ['2026-03-01', null, 'C', 'SSG'],
    ])
  })

  it('let the later entry of a day win, and add up what they say', () => {
    const periods = soldierPeriods([
      JOINED,
      change('2026-02-01', { unitId: 'B' }, 3),
      change('2026-02-01', { grade: 'SSG' }, 4),
      change('2026-02-01', { unitId: 'C' }, 5),
    ])
    expect(periods).toHaveLength(2)
    expect(periods[1]).toMatchObject({ from: '2026-02-01', unitId: 'C', grade: 'SSG' })
  })

  it('are none for who left on the day of joining', () => {
    expect(soldierPeriods([JOINED, change('2026-01-01', { left: 'other' }, 2)])).toEqual([])
  })

  it('run on where a change says nothing new', () => {
    expect(soldierPeriods([JOINED, change('2026-02-01', { unitId: 'A', arms: ['sword'] })])).toEqual(
      soldierPeriods([JOINED]),
    )
  })

  it('tell on every day what the changes up to it add up to, whatever their order', () => {
    const arbitraryChange = fc
      .record({
        day: fc.integer({ min: 0, max: 25 }),
        grade: fc.option(fc.constantFrom('SGT', 'SSG')),
        arms: fc.option(fc.constantFrom([], ['sword'], ['rifle', 'sword'])),
        unitId: fc.option(fc.constantFrom('A', 'B')),
        left: fc.option(fc.constantFrom('other'), { freq: 3 }),
      })
      .map(({ day, left, ...more }) =>
        change(addDays('2026-01-01', day), left ? { ...more, unitId: null, left } : more),
      )
    fc.assert(
      fc.property(fc.array(arbitraryChange, { maxLength: 9 }), fc.infiniteStream(fc.nat()), (drawn, keys) => {
        const entered = [JOINED, ...drawn].map((one, entry) => ({ ...one, entry }))
        const mixed = entered
          .map((one) => ({ one, key: keys.next().value as number }))
          .sort((a, b) => a.key - b.key)
          .map(({ one }) => one)
        const periods = soldierPeriods(mixed)
        expect(periods).toEqual(soldierPeriods(entered))
        for (let offset = -1; offset < 28; offset++) {
          const day = addDays('2026-01-01', offset)
          const found = periods.filter(({ from, through }) => from <= day && day <= (through ?? '9999-12-31'))
          expect(found.map(({ unitId, grade, arms }) => ({ unitId, grade, arms }))).toEqual(asOf(entered, day))
        }
      }),
      { numRuns: 300, seed: 4180 },
    )
  })
})

/** What holds on a day: the changes up to it applied one after the other. Empty outside the strength. */
function asOf(entered: readonly SoldierChange[], day: string) {
  const byDay = entered
    .filter(({ from }) => from <= day)
    .sort((a, b) => (a.from === b.from ? 0 : a.from < b.from ? -1 : 1))
  const state = { unitId: null as string | null, grade: '', arms: [] as readonly string[] }
  for (const { grade, arms, unitId, left } of byDay) {
    if (grade) state.grade = grade
    if (arms) state.arms = arms
    if (unitId) state.unitId = unitId
    if (left) state.unitId = null
  }
  return state.unitId === null ? [] : [state]
}
