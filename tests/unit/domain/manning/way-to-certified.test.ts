import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { addDays } from '../../../../server/domain/calendar/plain-date.ts'
import { outlookGroup } from '../../../../server/domain/manning/outlook-group.ts'
import { type WayFacts, wayToCertified } from '../../../../server/domain/manning/way-to-certified.ts'

const TODAY = '2026-11-25'
const CEREMONY = '2026-12-19'
const open = ['2026-11-25', '2026-12-02', '2026-12-09', '2026-12-19'].map((on) => ({ id: `day ${on}`, on }))
const fresh: WayFacts = {
  required: ['standing', 'marching'],
  toward: [],
  retests: [],
  bookings: [],
  inOrder: false,
  windowDays: 90,
}
const way = (facts: Partial<WayFacts>, days = open) =>
  wayToCertified({ ...fresh, ...facts }, days, TODAY, CEREMONY)?.map(
    ({ standard, on, booked }) => `${standard} ${on}${booked ? ' booked' : ''}`,
  ) ?? null

describe('the way to a certification', () => {
  it('takes what is missing on the first test day that is open, today included, the day of the ceremony not', () => {
    expect(way({})).toEqual(['standing 2026-11-25', 'marching 2026-11-25'])
    expect(way({ toward: [{ standard: 'standing', countsUntil: '2027-01-01' }] })).toEqual(['marching 2026-11-25'])
    expect(way({}, open.slice(3))).toBeNull()
  })

  it('takes a booking before any open day', () => {
    const bookings = [{ standard: 'marching', on: '2026-12-09', testDayId: 'x' }]
    expect(way({ bookings })).toEqual(['standing 2026-11-25', 'marching 2026-12-09 booked'])
  })

  it('waits for the earliest day of a retest, and for a review', () => {
    const retest = { standard: 'marching', earliest: '2026-12-03', needsReview: false }
    expect(way({ retests: [retest] })).toEqual(['standing 2026-11-25', 'marching 2026-12-09'])
    const early = [{ standard: 'marching', on: '2026-12-02', testDayId: 'x' }]
    expect(way({ retests: [retest], bookings: early })).toEqual(['standing 2026-11-25', 'marching 2026-12-09'])
    expect(way({ retests: [{ ...retest, needsReview: true }] })).toBeNull()
    expect(way({ retests: [{ ...retest, earliest: '2026-12-10' }] })).toBeNull()
  })

  it('takes a GO again that has aged out by the last test', () => {
    const toward = [{ standard: 'standing', countsUntil: '2026-12-05' }]
    const retests = [{ standard: 'marching', earliest: '2026-12-03', needsReview: false }]
    expect(way({ toward, retests })).toEqual(['standing 2026-11-25', 'marching 2026-12-09'])
    expect(way({ toward })).toEqual(['marching 2026-11-25'])
  })

  it('keeps the order where it matters', () => {
    const retests = [{ standard: 'standing', earliest: '2026-12-02', needsReview: false }]
    expect(way({ retests, inOrder: true })).toEqual(['standing 2026-12-02', 'marching 2026-12-02'])
    expect(way({ retests })).toEqual(['marching 2026-11-25', 'standing 2026-12-02'])
  })

  it('gives up where one GO would age out before the last', () => {
    const retests = [{ standard: 'marching', earliest: '2026-12-09', needsReview: false }]
    expect(way({ retests, windowDays: 10 })).toBeNull()
    expect(way({ retests, windowDays: 14 })).not.toBeNull()
  })

  it('never tests too early or too late, and leaves nothing missing', () => {
    const day = fc.integer({ min: -5, max: 30 }).map((days) => addDays(TODAY, days))
    const codes = ['a', 'b', 'c']
    const facts = fc.record({
      required: fc.constant(codes),
      toward: fc.uniqueArray(fc.record({ standard: fc.constantFrom(...codes), countsUntil: day }), {
        selector: ({ standard }) => standard,
      }),
      retests: fc.uniqueArray(
        fc.record({ standard: fc.constantFrom(...codes), earliest: day, needsReview: fc.boolean() }),
        { selector: ({ standard }) => standard },
      ),
      bookings: fc.array(fc.record({ standard: fc.constantFrom(...codes), on: day, testDayId: fc.constant('b') })),
      inOrder: fc.boolean(),
      windowDays: fc.integer({ min: 1, max: 40 }),
    })
    const days = fc.array(day, { maxLength: 6 }).map((list) => list.toSorted().map((on) => ({ id: on, on })))
    fc.assert(
      fc.property(facts, days, (given, openDays) => {
        const found = wayToCertified(given, openDays, TODAY, CEREMONY)
        if (found === null) return
        const last = found.at(-1)!.on
        expect(found.map(({ on }) => on)).toEqual(found.map(({ on }) => on).toSorted())
        for (const { standard, on, booked } of found) {
          const retest = given.retests.find((one) => one.standard === standard)
          expect(on >= TODAY && on < CEREMONY && on >= (retest?.earliest ?? on)).toBe(true)
          expect(retest?.needsReview ?? false).toBe(false)
          const source = booked ? given.bookings.filter((one) => one.standard === standard) : openDays
          expect(source.some((one) => one.on === on)).toBe(true)
          expect(addDays(on, given.windowDays) >= last).toBe(true)
        }
        for (const code of codes.filter((one) => !found.some(({ standard }) => standard === one))) {
          expect(given.toward.find(({ standard }) => standard === code)!.countsUntil >= last).toBe(true)
        }
      }),
      { seed: 44, numRuns: 500 },
    )
  })
})

describe('the group of an outlook', () => {
  const group = (part: Partial<Parameters<typeof outlookGroup>[0]>) =>
    outlookGroup({
      status: 'certified',
      statusToday: 'certified',
      isNamed: false,
      canStand: false,
      hasWay: false,
      ...part,
    })
  it('is the best that applies', () => {
    expect(group({ isNamed: true, canStand: true })).toBe('named')
    expect(group({ canStand: true })).toBe('can stand')
    expect(group({})).toBe('cannot')
    expect(group({ status: 'lapsed', hasWay: true })).toBe('lapses before')
    expect(group({ status: 'suspended' })).toBe('cannot')
    expect(group({ status: 'retest due', statusToday: 'retest due', hasWay: true })).toBe('could make it')
    expect(group({ status: 'no test yet', statusToday: 'no test yet' })).toBe('cannot')
  })
})
