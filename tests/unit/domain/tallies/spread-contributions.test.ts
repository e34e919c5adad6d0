import { describe, expect, test } from 'vitest'
import type { Contribution } from '../../../../server/domain/tallies/contribution.ts'
import { NO_UNIT, spreadContributions } from '../../../../server/domain/tallies/spread-contributions.ts'

const lineages = new Map([
  ['platoon', ['platoon', 'company']],
  ['company', ['company']],
])
const one: Contribution = {
  versionId: 'v1',
  unitId: 'platoon',
  day: '2026-03-02',
  arm: 'sword',
  kind: 'first',
  sponsorId: 'sponsor',
  graderId: 'grader',
  passed: true,
  ending: 'completed',
  counts: { measures: [1, 0, 3, 1], faults: [1], readings: [0, 2] },
}

describe('spreading contributions', () => {
  test('one goes to every unit above its own, in its year, month and day', () => {
    const deltas = spreadContributions([one], lineages)
    expect(deltas.map(({ unitId, grain, start }) => `${unitId} ${grain} ${start}`)).toEqual([
      'company day 2026-03-02',
      'company month 2026-03-01',
      'company year 2026-01-01',
      'platoon day 2026-03-02',
      'platoon month 2026-03-01',
      'platoon year 2026-01-01',
    ])
    for (const delta of deltas) {
      expect(delta).toMatchObject({ versionId: 'v1', arm: 'sword', kind: 'first', ...one.counts })
      expect(delta).toMatchObject({ attempts: 1, passes: 1, recorded: 0, stopped: 0 })
    }
  })

  test('those of one tally are added up, people apart', () => {
    const stopped: Contribution = {
      ...one,
      day: '2026-03-05',
      passed: false,
      ending: 'stopped',
      sponsorId: null,
      counts: { measures: [1, 1, 2, 2], faults: [0], readings: [1, 0] },
    }
    const deltas = spreadContributions([one, stopped], lineages)
    expect(deltas.filter(({ grain }) => grain === 'day')).toHaveLength(4)
    expect(deltas.find(({ unitId, grain }) => unitId === 'company' && grain === 'month')).toEqual({
      unitId: 'company',
      versionId: 'v1',
      grain: 'month',
      start: '2026-03-01',
      arm: 'sword',
      kind: 'first',
      attempts: 2,
      passes: 1,
      recorded: 0,
      stopped: 1,
      measures: [2, 1, 5, 3],
      faults: [1],
      readings: [1, 2],
      people: [
        { role: 'grader', soldierId: 'grader', attempts: 2, passes: 1 },
        { role: 'sponsor', soldierId: 'sponsor', attempts: 1, passes: 1 },
      ],
    })
  })

  test('of a day without a unit, and without an arm', () => {
    const deltas = spreadContributions([{ ...one, unitId: null, arm: null, ending: 'recorded' }], lineages)
    expect(deltas).toHaveLength(3)
    for (const delta of deltas) expect(delta).toMatchObject({ unitId: NO_UNIT, arm: '', recorded: 1 })
  })
})
