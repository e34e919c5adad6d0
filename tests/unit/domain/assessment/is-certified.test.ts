import { describe, expect, it } from 'vitest'
import { isCertified } from '../../../../server/domain/assessment/is-certified.ts'
import type { Qualification } from '../../../../server/domain/assessment/types.ts'
import { carriedOver, givenPerson } from './given.ts'

/** The sheet before which one looks: 2 March 2026 at noon. */
const SHEET = { id: '50', finishedAt: Date.parse('2026-03-02T12:00:00Z'), day: '2026-03-02' }

const earned = (id: string, instant: string, validThrough = '2027-03-02') => ({
  certification: 'sword',
  awardedOn: instant.slice(0, 10),
  validThrough,
  madeBy: { id, finishedAt: Date.parse(instant) },
  entry: 0,
})

const certified = (more: Partial<Qualification>) => isCertified(givenPerson(more), 'sword', SHEET)

describe('isCertified, on the day of a sheet and from what lies before it', () => {
  it('is false without an award, or with one in another certification', () => {
    expect(certified({})).toBe(false)
    expect(certified({ awards: [carriedOver('2026-01-01', '2027-01-01', 'rifle')] })).toBe(false)
  })

  it.each([
    ['an earlier day', earned('10', '2026-03-01T12:00:00Z'), true],
    ['a later day', earned('10', '2026-03-03T12:00:00Z'), false],
    ['the same day, earlier', earned('99', '2026-03-02T11:59:59.999Z'), true],
    ['the same day, later', earned('10', '2026-03-02T12:00:00.001Z'), false],
    ['the same instant, before it by id', earned('49', '2026-03-02T12:00:00Z'), true],
    ['the same instant, after it by id', earned('51', '2026-03-02T12:00:00Z'), false],
    ['the very sheet', earned('50', '2026-03-02T12:00:00Z'), false],
    [
      'an earlier instant on a later day, in a zone further east',
      { ...earned('10', '2026-03-02T11:00:00Z'), awardedOn: '2026-03-03' },
      false,
    ],
  ])('with an award made by a sheet of %s: %#', (_when, award, expected) => {
    expect(certified({ awards: [award] })).toBe(expected)
  })

  it.each([
    ['2026-03-01', true],
    ['2026-03-02', false],
    ['2026-03-03', false],
  ])('with an award carried over on %s: %s, for it comes at the end of its day', (awardedOn, expected) => {
    expect(certified({ awards: [carriedOver(awardedOn, '2027-01-01')] })).toBe(expected)
  })

  it.each([
    ['2026-03-01', false],
    ['2026-03-02', true],
  ])('with an award through %s: %s', (validThrough, expected) => {
    expect(certified({ awards: [carriedOver('2025-03-02', validThrough)] })).toBe(expected)
  })

  it('goes by the latest award made, even with an earlier last day', () => {
    const long = carriedOver('2025-06-01', '2027-01-01')
    const short = carriedOver('2025-07-01', '2026-03-01')
    expect(certified({ awards: [long, short] })).toBe(false)
    expect(certified({ awards: [short, long] })).toBe(false)
  })

  it('takes the awards of one day in order: by sheets, then carried over, in order of entry', () => {
    const bySheet = earned('10', '2026-03-01T12:00:00Z', '2027-01-01')
    const expired = carriedOver('2026-03-01', '2026-03-01', 'sword', 1)
    const valid = carriedOver('2026-03-01', '2026-12-31', 'sword', 2)
    expect(certified({ awards: [expired, bySheet] })).toBe(false)
    expect(certified({ awards: [bySheet, expired] })).toBe(false)
    expect(certified({ awards: [valid, expired] })).toBe(true)
    expect(certified({ awards: [expired, valid, bySheet] })).toBe(true)
    expect(certified({ awards: [{ ...valid, entry: 0 }, expired] })).toBe(false)
    const laterSheet = earned('11', '2026-03-01T13:00:00Z', '2026-03-01')
    expect(certified({ awards: [laterSheet, bySheet] })).toBe(false)
  })

  it.each([
    ['2026-03-03', null, true],
    ['2026-03-02', null, false],
    ['2026-02-01', '2026-03-03', false],
    ['2026-02-01', '2026-03-02', true],
  ])('with a suspension from %s, lifted %s: %s', (from, lift, expected) => {
    const awards = [carriedOver('2025-06-01', '2027-01-01')]
    expect(certified({ awards, suspensions: [{ certification: 'sword', from, lift }] })).toBe(expected)
    expect(certified({ awards, suspensions: [{ certification: 'rifle', from, lift }] })).toBe(true)
  })
})
