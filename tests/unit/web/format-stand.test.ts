import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { formatBooked, formatReason } from '../../../web/domain/readiness/format-reason.ts'
import { formatStand, formatWhyNot } from '../../../web/features/readiness/format-stand.ts'
import { linesByPlatoon } from '../../../web/features/readiness/lines-by-platoon.ts'
import { worthARow } from '../../../web/features/readiness/worth-a-row.ts'
import { emptyTally } from '../../../web/parts/readiness/tally-status.ts'
import { keepUnitZone } from '../../../web/words/unit-zone.ts'
import { id, item, unit } from './given.ts'

beforeAll(() => keepUnitZone('America/New_York'))
afterAll(() => keepUnitZone(null))

const TODAY = '2026-11-25'

describe('who can stand as of a date', () => {
  const asked = { unit: '2nd Platoon', certification: 'Sword', asOf: TODAY, today: TODAY }
  it('is counted out of those required', () => {
    expect(formatStand({ ...emptyTally(), certified: 13, lapsed: 5 }, asked)).toBe(
      '13 of 18 required to hold Sword in 2nd Platoon can stand today.',
    )
    expect(formatStand({ ...emptyTally(), certified: 18 }, { ...asked, asOf: '2026-12-05' })).toBe(
      'All 18 required to hold Sword in 2nd Platoon can stand on Saturday 5 December.',
    )
    expect(
      formatStand({ ...emptyTally(), certified: 13, lapsed: 5 }, { ...asked, unit: '', certification: null }),
    ).toBe('13 of 18 required certifications are in force today.')
    expect(formatStand(emptyTally(), asked)).toBe('Nobody in 2nd Platoon is required to hold Sword today.')
  })
  it('says what keeps the others, and who lapses next when everyone is known', () => {
    const tally = { ...emptyTally(), certified: 2, 'part way': 1, 'retest due': 2, 'no test yet': 13 }
    const items = [
      item({ name: 'Later, Lea', validThrough: '2027-06-02' }),
      item({ name: 'Sooner, Sue', validThrough: '2026-12-09' }),
      item({ name: 'Extra, Eve', validThrough: '2026-12-01', required: false }),
    ]
    expect(formatWhyNot(tally, items, true, TODAY)).toBe(
      'One is part way, two have a retest due and 13 have no test yet. Next to lapse: SGT Sooner, after Wed 9 Dec.',
    )
    expect(formatWhyNot(tally, items, false, TODAY)).toBe(
      'One is part way, two have a retest due and 13 have no test yet.',
    )
    expect(formatWhyNot({ ...emptyTally(), certified: 2 }, [], true, TODAY)).toBe('')
  })
})

describe('why somebody stands as they do', () => {
  const words = {
    asOf: '2026-12-05',
    today: TODAY,
    zone: 'America/New_York',
    standardTitle: (code: string) => `the ${code}`,
    standardsOf: () => ['standing', 'marching'],
  }
  const reason = (part: Parameters<typeof item>[0]) => formatReason(item(part), words)
  const retests = [{ standard: 'marching', on: '2026-11-20', earliest: '2026-11-27', due: '2026-12-20' }]
  const toward = [{ standard: 'standing', on: '2026-10-20', countsUntil: '2027-01-18' }]
  it('tells of a lapse that is near', () => {
    expect(reason({ validThrough: '2026-12-09' })).toBe('Lapses 4 days after')
    expect(reason({ validThrough: '2026-12-06' })).toBe('Lapses 1 day after')
    expect(reason({ validThrough: '2026-12-05' })).toBe('Last day')
    expect(reason({ validThrough: '2027-06-01' })).toBe('')
  })
  it('tells what is passed, what failed and by when it is to be taken again', () => {
    expect(reason({ status: 'part way', toward })).toBe(
      'The standing passed, counts until 18 Jan 2027; the marching still to pass',
    )
    expect(reason({ status: 'retest due', toward, retests, required: false })).toBe(
      'NO-GO in the marching on Fri 20 Nov, retest due 20 Dec; the standing passed, counts until 18 Jan 2027; not required',
    )
    expect(reason({ status: 'retest due', toward, retests: [{ ...retests[0]!, due: '2026-12-04' }] })).toMatch(
      /^NO-GO in the marching on Fri 20 Nov, retest was due Fri 4 Dec;/,
    )
    expect(reason({ status: 'no test yet' })).toBe('The standing and the marching still to pass')
    expect(reason({ status: 'lapsed', validThrough: '2026-11-01' })).toBe('Held through 1 Nov')
    expect(reason({ status: 'suspended', suspension: { from: '2026-11-01', reason: 'sore wrist' } })).toBe('Sore wrist')
  })
  it('tells what is booked, that nothing is, and that it comes too late', () => {
    const booked = (part: Parameters<typeof item>[0]) => formatBooked(item(part), words)
    const test = { standard: 'marching', on: '2026-12-08', startsAt: '2026-12-08T14:00:00Z' }
    expect(booked({ status: 'retest due', retests, booked: [test] })).toBe('Tue 8 Dec, 09:00, the marching')
    expect(booked({ status: 'retest due', retests: [{ ...retests[0]!, due: '2026-12-07' }], booked: [test] })).toBe(
      'Tue 8 Dec, 09:00, the marching (after it is due)',
    )
    expect(booked({ status: 'lapsed' })).toBe('Nothing booked')
    expect(booked({ status: 'certified' })).toBe('')
    expect(booked({ status: 'suspended' })).toBe('')
  })
})

it('whoever need not hold a certification and never began one is left off the list', () => {
  const rows = [
    item({ status: 'no test yet' }),
    item({ required: false, status: 'no test yet' }),
    item({ required: false, status: 'lapsed' }),
  ]
  expect(rows.map(worthARow)).toEqual([true, false, true])
})

describe('the lines of the platoons', () => {
  const units = [unit(1, 'Battalion', null), unit(2, '2nd Platoon', 1), unit(3, '10th Platoon', 1), unit(4, 'Empty', 1)]
  const count = (unitId: number, certification: string, part: object = {}) => ({
    unitId: id(unitId),
    certification,
    status: 'certified' as const,
    required: true,
    count: 3,
    ...part,
  })
  it('hold those required in a unit itself, in the order of the tree', () => {
    const counts = [
      count(3, 'rifle'),
      count(2, 'sword'),
      count(2, 'rifle'),
      count(2, 'rifle', { required: false }),
      count(4, 'rifle', { required: false }),
    ]
    const lines = linesByPlatoon(units, undefined, counts)
    expect(lines.map(({ unit }) => unit.name)).toEqual(['2nd Platoon', '10th Platoon'])
    expect(lines[0]?.lines.map(({ certification, total }) => [certification, total])).toEqual([
      ['rifle', 3],
      ['sword', 3],
    ])
  })
  it('are only those below the unit asked for', () => {
    expect(linesByPlatoon(units, id(3), [count(2, 'sword'), count(3, 'sword')]).map(({ unit }) => unit.id)).toEqual([
      id(3),
    ])
  })
})
