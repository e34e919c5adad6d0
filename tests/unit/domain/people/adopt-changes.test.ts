import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { addDays } from '../../../../server/domain/calendar/plain-date.ts'
import { adoptChanges } from '../../../../server/domain/people/adopt-changes.ts'
import { type SoldierChange, soldierPeriods } from '../../../../server/domain/people/soldier-periods.ts'

const FIRST = '2026-01-01'
const DAYS = 40

const change = fc.oneof(
  fc.record({ unitId: fc.constantFrom('a', 'b'), grade: fc.constantFrom(null, 'SGT'), left: fc.constant(null) }),
  fc.record({ unitId: fc.constant(null), grade: fc.constantFrom('SGT', 'SSG'), left: fc.constant(null) }),
  fc.record({ unitId: fc.constant(null), grade: fc.constant(null), left: fc.constantFrom('transferred', 'other') }),
)
const history = fc.array(fc.record({ at: fc.nat(DAYS), change }), { maxLength: 6 }).chain((later) =>
  fc.nat(DAYS).map((joined): SoldierChange[] => [
    { from: addDays(FIRST, joined), unitId: 'a', grade: 'CPL', arms: ['rifle'], left: null, entry: 1 },
    ...later.map(({ at, change }, index) => ({
      ...change,
      from: addDays(FIRST, joined + at),
      arms: null,
      entry: index + 2,
    })),
  ]),
)

const on = (changes: readonly SoldierChange[], day: string) => {
  const period = soldierPeriods(changes).find(({ from, through }) => from <= day && (through ?? '9999') >= day)
  return period && { unitId: period.unitId, grade: period.grade, arms: period.arms }
}

describe('the changes adopted from another entry of the same soldier', () => {
  it('leave each day as it was, and add those on which only the other was of the strength', () => {
    let added = 0
    fc.assert(
      fc.property(history, history, (kept, away) => {
        const adopted = adoptChanges(kept, away).map((one, index) => ({ ...one, entry: 100 + index }))
        added += adopted.length
        for (let at = 0; at <= 2 * DAYS + 2; at++) {
          const day = addDays(FIRST, at)
          expect(on([...kept, ...adopted], day), day).toEqual(on(kept, day) ?? on(away, day))
        }
      }),
      { seed: 20261125, numRuns: 400 },
    )
    expect(added).toBeGreaterThan(100)
  })

  it('are none where the other was of the strength on no other day, and the earlier time where it was', () => {
    const joined = (from: string, entry = 1): SoldierChange => ({
      from,
      unitId: 'a',
      grade: 'SGT',
      arms: [],
      left: null,
      entry,
    })
    expect(adoptChanges([joined('2026-01-01')], [joined('2026-02-01')])).toEqual([])
    expect(adoptChanges([joined('2026-02-01')], [joined('2026-01-01')])).toEqual([
      { from: '2026-01-01', unitId: 'a', grade: 'SGT', arms: [], left: null },
      { from: '2026-02-01', unitId: 'a', grade: 'SGT', arms: [], left: null },
    ])
    const gone = { from: '2026-01-20', unitId: null, grade: null, arms: null, left: 'transferred', entry: 2 }
    expect(
      adoptChanges([joined('2026-02-01')], [joined('2026-01-01'), gone]).map(({ from, left }) => [from, left]),
    ).toEqual([
      ['2026-01-01', null],
      ['2026-01-20', 'transferred'],
      ['2026-02-01', null],
    ])
  })
})
