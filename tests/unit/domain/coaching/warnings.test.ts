import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type CoachingFacts, coachingWarnings, uncovered } from '../../../../server/domain/coaching/warnings.ts'

const TODAY = '2026-06-15'
type Ahead = CoachingFacts['ahead'][number]
const ahead = (more: Partial<Ahead> = {}): Ahead => ({
  certification: 'sword',
  standard: 'standing',
  retest: null,
  booking: null,
  ...more,
})
const retest = (more: Partial<NonNullable<Ahead['retest']>> = {}) => ({
  earliest: '2026-06-20',
  due: '2026-07-10',
  needsReview: false,
  ...more,
})
const said = (facts: Partial<CoachingFacts>) =>
  coachingWarnings({ today: TODAY, ahead: [], kept: [], ...facts }).map(({ kind, on, test }) => [kind, on, test])

describe('a sponsor is warned', () => {
  it('that a retest is past due from the day after, and that nothing is booked from the earliest day on', () => {
    expect(said({ ahead: [ahead({ retest: retest({ earliest: '2026-06-16' }) })] })).toEqual([])
    expect(said({ ahead: [ahead({ retest: retest({ earliest: TODAY }) })] })).toEqual([
      ['nothing-booked', '2026-07-10', TODAY],
    ])
    expect(said({ ahead: [ahead({ retest: retest({ earliest: '2026-06-01', due: TODAY }) })] })).toEqual([
      ['nothing-booked', TODAY, TODAY],
    ])
    expect(said({ ahead: [ahead({ retest: retest({ earliest: '2026-06-01', due: '2026-06-14' }) })] })).toEqual([
      ['retest-past-due', '2026-06-14', TODAY],
    ])
    expect(said({ ahead: [ahead({ retest: retest({ earliest: TODAY }), booking: { on: '2026-06-18' } })] })).toEqual([])
  })

  it('that a booking is after the due day, which is not past yet', () => {
    const late = (due: string) => [
      ahead({ retest: retest({ earliest: '2026-06-01', due }), booking: { on: '2026-06-30' } }),
    ]
    expect(said({ ahead: late('2026-06-30') })).toEqual([])
    expect(said({ ahead: late('2026-06-29') })).toEqual([['booked-after-due', '2026-06-29', '2026-06-30']])
    expect(said({ ahead: late('2026-06-14') })).toEqual([['retest-past-due', '2026-06-14', '2026-06-30']])
  })

  it('that a review is needed before the retest', () => {
    expect(said({ ahead: [ahead({ retest: retest({ needsReview: true }) })] })).toEqual([
      ['review-needed', '2026-06-20', '2026-06-20'],
    ])
  })

  it('that they are not certified on the day of the test, whose last day still counts', () => {
    const booked = [ahead({ booking: { on: '2026-06-30' } })]
    expect(said({ ahead: booked, certifiedThrough: () => '2026-06-30' })).toEqual([])
    expect(said({ ahead: booked, certifiedThrough: () => '2026-06-29' })).toEqual([
      ['sponsor-not-certified', '2026-06-29', '2026-06-30'],
    ])
    expect(said({ ahead: booked, certifiedThrough: () => null })).toEqual([
      ['sponsor-not-certified', TODAY, '2026-06-30'],
    ])
    expect(said({ ahead: [ahead({ retest: retest() })], certifiedThrough: () => '2026-06-19' })).toEqual([
      ['sponsor-not-certified', '2026-06-19', '2026-06-20'],
    ])
  })

  it('that they lapse soon, where no day of a test is known', () => {
    expect(said({ ahead: [ahead()], certifiedThrough: () => '2026-07-14' })).toEqual([
      ['sponsor-not-certified', '2026-07-14', null],
    ])
    expect(said({ ahead: [ahead()], certifiedThrough: () => '2026-07-15' })).toEqual([])
  })

  it('that the sponsorship ends before the test', () => {
    const booked = [ahead({ booking: { on: '2026-06-30' } })]
    expect(said({ ahead: booked, until: '2026-06-30' })).toEqual([])
    expect(said({ ahead: booked, until: null })).toEqual([])
    expect(said({ ahead: booked, until: '2026-06-29' })).toEqual([['sponsorship-ends', '2026-06-29', '2026-06-30']])
  })

  it('that a kept GO stops counting before what is missing beside it is tested', () => {
    const kept = [{ certification: 'sword', standard: 'marching', countsUntil: '2026-06-29' }]
    expect(said({ kept })).toEqual([])
    expect(said({ kept, ahead: [ahead({ booking: { on: '2026-06-29' } })] })).toEqual([])
    expect(said({ kept, ahead: [ahead({ booking: { on: '2026-06-30' } })] })).toEqual([
      ['go-ages-out', '2026-06-29', '2026-06-30'],
    ])
    expect(said({ kept, ahead: [ahead()] })).toEqual([['go-ages-out', '2026-06-29', null]])
    const later = [{ ...kept[0]!, countsUntil: '2026-07-16' }]
    expect(said({ kept: later, ahead: [ahead()] })).toEqual([])
    expect(said({ kept, ahead: [ahead({ certification: 'rifle' })] })).toEqual([])
  })

  it('that the candidate’s own certification ends soon, and nothing is booked to renew it in time', () => {
    const held = [{ certification: 'sword', standards: ['standing', 'marching'], validThrough: '2026-07-15' }]
    expect(said({ held })).toEqual([['certification-lapses', '2026-07-15', null]])
    expect(said({ held: [{ ...held[0]!, validThrough: '2026-07-16' }] })).toEqual([])
    const booked = (standing: string, marching: string) => [
      ahead({ booking: { on: standing } }),
      ahead({ standard: 'marching', booking: { on: marching } }),
    ]
    expect(said({ held, ahead: booked('2026-07-01', '2026-07-15') })).toEqual([])
    expect(said({ held, ahead: booked('2026-07-01', '2026-07-16') })).toEqual([
      ['certification-lapses', '2026-07-15', '2026-07-16'],
    ])
  })

  it('of nothing that another sponsor of the candidate looks after', () => {
    const booked = [
      ahead({ booking: { on: '2026-06-30' } }),
      ahead({ standard: 'rifle', booking: { on: '2026-06-30' } }),
    ]
    const of = (through: (standard: string) => string | null) =>
      coachingWarnings({ today: TODAY, ahead: booked, kept: [], certifiedThrough: through })
    const one = { sponsor: 'one', warnings: of(() => null) }
    const rifle = { sponsor: 'rifle', warnings: of((standard) => (standard === 'rifle' ? '2026-12-31' : null)) }
    expect(uncovered([one]).map(({ warnings }) => warnings.length)).toEqual([2])
    expect(uncovered([one, rifle]).map(({ warnings }) => warnings.map(({ standard }) => standard))).toEqual([
      ['standing'],
      ['standing'],
    ])
  })

  it('of each thing once, with a day, the soonest first', () => {
    const day = fc.integer({ min: 1, max: 28 }).map((date) => `2026-06-${String(date).padStart(2, '0')}`)
    const test = fc.record({
      certification: fc.constant('sword'),
      standard: fc.constantFrom('standing', 'marching'),
      retest: fc.option(fc.record({ earliest: day, due: day, needsReview: fc.boolean() })),
      booking: fc.option(fc.record({ on: day })),
    })
    fc.assert(
      fc.property(fc.uniqueArray(test, { selector: (one) => one.standard }), fc.option(day), (tests, through) => {
        const found = coachingWarnings({ today: TODAY, ahead: tests, kept: [], certifiedThrough: () => through })
        expect(new Set(found.map(({ kind, standard }) => `${kind} ${standard}`)).size).toBe(found.length)
        const days = found.map(({ on }) => on)
        expect(days).toEqual([...days].sort())
        for (const { kind, on, test: tested } of found) {
          if (kind === 'sponsor-not-certified' && tested !== null && through !== null) expect(on < tested).toBe(true)
        }
      }),
      { seed: 20261125 },
    )
  })
})
