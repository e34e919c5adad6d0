import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { addDays } from '../../../../server/domain/calendar/plain-date.ts'
import { carryOver } from '../../../../server/domain/people/carry-over.ts'
import { type SoldierChange, soldierPeriods } from '../../../../server/domain/people/soldier-periods.ts'

const START = '2026-01-01'
const day = fc.integer({ min: 0, max: 40 }).map((days) => addDays(START, days))
const unit = fc.constantFrom('A', 'B', 'C')
const laterChange = fc.record({
  from: day,
  grade: fc.option(fc.constantFrom('CPL', 'SGT')),
  arms: fc.option(fc.subarray(['sword', 'rifle'])),
  unitId: fc.option(unit),
  left: fc.option(fc.constantFrom('transferred'), { freq: 4 }),
})
const history: fc.Arbitrary<SoldierChange[]> = fc
  .tuple(unit, fc.array(laterChange, { maxLength: 6 }))
  .map(([unitId, later]) =>
    [{ from: START, grade: 'PVT', arms: [], unitId, left: null }, ...later].map((one, entry) => ({
      ...one,
      unitId: one.left === null ? one.unitId : null,
      entry,
    })),
  )

const at = (periods: readonly { from: string; through: string | null }[], on: string) =>
  periods.find(({ from, through }) => from <= on && (through === null || through >= on))

describe('who is carried over to the unit that goes on from theirs', () => {
  it('is there from the day on and was what they were before, whatever their changes are', () => {
    const goesOnAs = new Map([
      ['A', 'A2'],
      ['B', 'B2'],
    ])
    fc.assert(
      fc.property(history, day, (changes, from) => {
        const before = soldierPeriods(changes)
        const { periods } = carryOver(changes, goesOnAs, from)
        for (let n = 0; n <= 45; n++) {
          const on = addDays(START, n)
          const was = at(before, on) as (typeof before)[number] | undefined
          const is = at(periods, on) as (typeof before)[number] | undefined
          const expected = was && on >= from ? { ...was, unitId: goesOnAs.get(was.unitId) ?? was.unitId } : was
          const of = (one: typeof was) => one && [one.unitId, one.grade, [...one.arms]]
          expect(of(is), on).toEqual(of(expected))
        }
      }),
      { seed: 13, numRuns: 500 },
    )
  })

  it('has nothing entered where nobody is in one of the units that day', () => {
    const changes = [{ from: START, grade: 'PVT', arms: [], unitId: 'C', left: null, entry: 1 }]
    expect(carryOver(changes, new Map([['A', 'A2']]), '2026-01-05').entered).toBeNull()
  })
})
