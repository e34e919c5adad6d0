import { describe, expect, it } from 'vitest'
import { dayInZone } from '../../../../server/domain/calendar/day-in-zone.ts'
import { certificationSpans } from '../../../../server/domain/certification/spans.ts'
import { certificationStatus, openRetests } from '../../../../server/domain/certification/status.ts'
import { termsOn } from '../../../../server/domain/certification/terms-on.ts'
import type { Attempt, Break, Certification, History, Terms } from '../../../../server/domain/certification/types.ts'
import { attemptNumbers } from '../../../support/attempt-numbers.ts'
import { walk } from '../../../support/walk.ts'

// Expected values in this file are worked out by hand from the rules; `day + 90` is counted on a calendar.

const TERMS: Terms = {
  effectiveFrom: '2020-01-01',
  sequence: 'any',
  windowDays: 90,
  validityMonths: 12,
  waitDays: 7,
  dueDays: 30,
  reviewAfter: 3,
}

const sword = (terms: readonly Partial<Terms>[] = [{}]): Certification => ({
  code: 'sword',
  standards: ['standing', 'marching'],
  arms: [],
  terms: terms.map((one) => ({ ...TERMS, ...one })),
})

let nextId = 0
const sheet = (outcome: Attempt['outcome'], standard: string, day: string, more: Partial<Attempt> = {}): Attempt => ({
  id: String(nextId++).padStart(8, '0'),
  standard,
  version: 1,
  arm: 'sword',
  finishedAt: Date.parse(`${day}T15:00:00Z`),
  day,
  outcome,
  ...more,
})

const history = (more: Partial<History>): History => ({
  attempts: [],
  awards: [],
  withdrawals: [],
  suspensions: [],
  reviews: [],
  ...more,
})

const both = (day: string) => [sheet('GO', 'standing', day), sheet('GO', 'marching', day)]

describe('terms', () => {
  const changing = [{ effectiveFrom: '2026-07-01' }, { effectiveFrom: '2025-01-01' }, { effectiveFrom: '2026-01-01' }]

  it.each([
    ['2024-06-01', '2025-01-01'],
    ['2025-12-31', '2025-01-01'],
    ['2026-01-01', '2026-01-01'],
    ['2026-06-30', '2026-01-01'],
    ['2030-01-01', '2026-07-01'],
  ])('of %s are those from %s on', (day, effectiveFrom) => {
    expect(termsOn(sword(changing).terms, day).effectiveFrom).toBe(effectiveFrom)
  })

  it('are needed', () => {
    expect(() => termsOn([], '2026-01-01')).toThrow(RangeError)
  })

  it('of the GO that makes it hold for an award', () => {
    const certification = sword([{}, { effectiveFrom: '2026-03-01', validityMonths: 6 }])
    const attempts = [sheet('GO', 'standing', '2026-02-27'), sheet('GO', 'marching', '2026-03-01')]
    expect(certificationStatus(certification, [], history({ attempts }), '2026-03-01')).toMatchObject({
      awardedOn: '2026-03-01',
      validThrough: '2026-09-01',
    })
    const earlier = attempts.map((one) => ({ ...one, day: '2026-02-28' }))
    expect(certificationStatus(certification, [], history({ attempts: earlier }), '2026-03-01')).toMatchObject({
      awardedOn: '2026-02-28',
      validThrough: '2027-02-28',
    })
  })

  it('of the NO-GO hold for its retest, however late one looks', () => {
    const certification = sword([
      { reviewAfter: 1 },
      { effectiveFrom: '2026-03-10', waitDays: 14, dueDays: 60, reviewAfter: 2 },
    ])
    const failed = (day: string) => history({ attempts: [sheet('NO-GO', 'standing', day)] })
    expect(openRetests(certification, [], failed('2026-03-09'), '2026-04-01')).toMatchObject([
      { earliest: '2026-03-16', due: '2026-04-08', needsReview: true },
    ])
    expect(openRetests(certification, [], failed('2026-03-10'), '2026-04-01')).toMatchObject([
      { earliest: '2026-03-24', due: '2026-05-09', needsReview: false },
    ])
  })

  it('of the day that is asked about say until when a GO counts', () => {
    const certification = sword([{}, { effectiveFrom: '2026-02-01', windowDays: 10 }, { effectiveFrom: '2026-03-01' }])
    const attempts = [sheet('GO', 'standing', '2026-01-15')]
    const on = (day: string) => certificationStatus(certification, [], history({ attempts }), day)
    expect(on('2026-01-31')).toMatchObject({ status: 'part way', toward: [{ countsUntil: '2026-04-15' }] })
    expect(on('2026-02-01')).toMatchObject({ status: 'no test yet', toward: [] })
    expect(on('2026-03-01')).toMatchObject({ status: 'part way', toward: [{ countsUntil: '2026-04-15' }] })
  })

  it('of a GO forget what is too old for good', () => {
    const certification = sword([{}, { effectiveFrom: '2026-02-01', windowDays: 10 }, { effectiveFrom: '2026-03-01' }])
    const attempts = [
      sheet('GO', 'standing', '2026-01-15'),
      sheet('GO', 'marching', '2026-02-10'),
      sheet('GO', 'marching', '2026-03-05'),
    ]
    expect(certificationStatus(certification, [], history({ attempts }), '2026-03-05')).toMatchObject({
      status: 'part way',
      toward: [{ standard: 'marching', on: '2026-03-05' }],
    })
  })
})

describe('the window', () => {
  // 15 January and 90 days is 15 April.
  it.each([
    ['2026-04-15', 'certified'],
    ['2026-04-16', 'part way'],
  ])('lets a GO of 15 January count on %s: %s', (day, status) => {
    const attempts = [sheet('GO', 'standing', '2026-01-15'), sheet('GO', 'marching', day)]
    expect(certificationStatus(sword(), [], history({ attempts }), day).status).toBe(status)
  })
})

describe('a version that is not equivalent', () => {
  const breaks: Break[] = [{ standard: 'standing', version: 2, effectiveFrom: '2026-03-01' }]
  const started = [sheet('GO', 'standing', '2026-02-10')]

  it('ends kept GOs of versions before it, from its first day on', () => {
    expect(certificationStatus(sword(), breaks, history({ attempts: started }), '2026-02-28').status).toBe('part way')
    expect(certificationStatus(sword(), breaks, history({ attempts: started }), '2026-03-01')).toMatchObject({
      status: 'no test yet',
      toward: [],
    })
    const attempts = [...started, sheet('GO', 'marching', '2026-03-01')]
    expect(certificationStatus(sword(), breaks, history({ attempts }), '2026-03-01').status).toBe('part way')
  })

  it('leaves GOs of its own version and of other standards', () => {
    const attempts = [
      sheet('GO', 'standing', '2026-02-10', { version: 2 }),
      sheet('GO', 'marching', '2026-03-01', { version: 1 }),
    ]
    expect(certificationStatus(sword(), breaks, history({ attempts }), '2026-03-01').status).toBe('certified')
  })

  it('leaves awards, attempts and open retests', () => {
    const attempts = [...both('2026-02-10'), sheet('NO-GO', 'standing', '2026-02-20')]
    expect(certificationStatus(sword(), breaks, history({ attempts }), '2026-03-05')).toMatchObject({
      status: 'certified',
      awardedOn: '2026-02-10',
      retestOpen: ['standing'],
    })
    expect(openRetests(sword(), breaks, history({ attempts }), '2026-03-05')).toMatchObject([
      { standard: 'standing', attempt: 2, noGosInARow: 1 },
    ])
  })
})

describe('an award', () => {
  it('holds through its last day and not longer', () => {
    const attempts = both('2026-08-31')
    const certification = sword([{ validityMonths: 6 }])
    const on = (day: string) => certificationStatus(certification, [], history({ attempts }), day)
    expect(on('2027-02-28')).toMatchObject({ status: 'certified', validThrough: '2027-02-28' })
    expect(on('2027-03-01')).toMatchObject({ status: 'lapsed', validThrough: '2027-02-28' })
  })

  it('uses up all kept GOs and open retests', () => {
    const attempts = [
      sheet('NO-GO', 'marching', '2026-02-01'),
      sheet('GO', 'standing', '2026-02-02'),
      sheet('GO', 'marching', '2026-02-20'),
    ]
    expect(certificationStatus(sword(), [], history({ attempts }), '2026-02-20')).toMatchObject({
      status: 'certified',
      toward: [],
      retestOpen: [],
    })
  })

  it('carried over is in force although its last day is earlier than that of the one before', () => {
    const awards = [{ awardedOn: '2026-03-01', validThrough: '2026-03-31', entry: 0 }]
    const attempts = both('2026-02-10')
    expect(certificationStatus(sword(), [], history({ attempts, awards }), '2026-02-28').status).toBe('certified')
    expect(certificationStatus(sword(), [], history({ attempts, awards }), '2026-03-31').status).toBe('certified')
    expect(certificationStatus(sword(), [], history({ attempts, awards }), '2026-04-01')).toMatchObject({
      status: 'lapsed',
      awardedOn: '2026-03-01',
      validThrough: '2026-03-31',
    })
  })

  it('carried over comes at the end of its day, in order of entry', () => {
    const awards = [
      { awardedOn: '2026-02-10', validThrough: '2026-05-01', entry: 7 },
      { awardedOn: '2026-02-10', validThrough: '2026-04-01', entry: 3 },
    ]
    const attempts = [sheet('GO', 'standing', '2026-02-10'), sheet('NO-GO', 'marching', '2026-02-10')]
    expect(certificationStatus(sword(), [], history({ attempts, awards }), '2026-02-10')).toEqual({
      status: 'certified',
      awardedOn: '2026-02-10',
      validThrough: '2026-05-01',
      suspended: false,
      toward: [],
      retestOpen: [],
    })
  })

  it('numbers attempts anew, the sheet that makes it belonging to the old count', () => {
    const attempts = [
      sheet('GO', 'standing', '2026-02-10'),
      sheet('NO-GO', 'marching', '2026-02-11'),
      sheet('GO', 'marching', '2026-02-20'),
      sheet('GO', 'standing', '2026-03-01'),
    ]
    const numbers = attemptNumbers(walk(sword(), [], history({ attempts })))
    expect(attempts.map(({ id }) => numbers.get(id))).toEqual([1, 1, 2, 1])
  })
})

describe('a withdrawal from training', () => {
  const attempts = [
    ...both('2026-02-10'),
    sheet('NO-GO', 'standing', '2026-03-01'),
    sheet('GO', 'marching', '2026-03-02'),
  ]

  it('clears what is under way at the end of its day and leaves the award in force', () => {
    const withdrawn = history({ attempts, withdrawals: ['2026-03-02'] })
    expect(certificationStatus(sword(), [], withdrawn, '2026-03-01')).toMatchObject({ retestOpen: ['standing'] })
    expect(certificationStatus(sword(), [], withdrawn, '2026-03-02')).toEqual({
      status: 'certified',
      awardedOn: '2026-02-10',
      validThrough: '2027-02-10',
      suspended: false,
      toward: [],
      retestOpen: [],
    })
  })

  it('comes after an award that is carried over on the same day', () => {
    const withdrawn = history({
      withdrawals: ['2026-03-02'],
      awards: [{ awardedOn: '2026-03-02', validThrough: '2026-04-02', entry: 0 }],
    })
    expect(certificationStatus(sword(), [], withdrawn, '2026-03-02').status).toBe('certified')
  })
})

describe('a suspension', () => {
  const attempts = both('2026-02-10')
  const on = (day: string, from: string, lift: string | null) =>
    certificationStatus(sword(), [], history({ attempts, suspensions: [{ from, lift }] }), day)

  it.each([
    ['2026-02-28', '2026-03-01', null, 'certified'],
    ['2026-03-01', '2026-03-01', null, 'suspended'],
    ['2026-03-09', '2026-03-01', '2026-03-10', 'suspended'],
    ['2026-03-10', '2026-03-01', '2026-03-10', 'certified'],
    ['2026-03-01', '2026-03-01', '2026-03-01', 'certified'],
    ['2027-02-10', '2026-03-01', null, 'suspended'],
  ])('on %s, from %s with lift %s: %s', (day, from, lift, status) => {
    expect(on(day, from, lift).status).toBe(status)
  })

  it('no longer is the status once the award has run out, and is still told', () => {
    expect(on('2027-02-11', '2026-03-01', null)).toMatchObject({ status: 'lapsed', suspended: true })
  })

  it('is told of someone who never tested', () => {
    const suspensions = [{ from: '2026-03-01', lift: '2026-04-01' }]
    const soldier = history({ suspensions })
    expect(certificationStatus(sword(), [], soldier, '2026-03-01')).toMatchObject({
      status: 'no test yet',
      suspended: true,
    })
    expect(certificationSpans(sword(), [], soldier, []).statuses).toMatchObject([
      { from: '2026-03-01', through: '2026-03-31', value: { status: 'no test yet', suspended: true } },
    ])
  })
})

describe('retests', () => {
  it('count NO-GOs in a row until any GO, award or withdrawal', () => {
    const failed = (day: string) => sheet('NO-GO', 'standing', day)
    const row = (more: Partial<History>) => openRetests(sword(), [], history(more), '2026-03-31')[0]?.noGosInARow
    const twice = [failed('2026-03-01'), failed('2026-03-09')]
    const third = failed('2026-03-20')
    expect(row({ attempts: [...twice, third] })).toBe(3)
    expect(row({ attempts: [...twice, sheet('GO', 'standing', '2026-03-12'), third] })).toBe(1)
    expect(row({ attempts: [...twice, sheet('GO', 'marching', '2026-03-12'), third] })).toBe(3)
    expect(row({ attempts: [...twice, third], withdrawals: ['2026-03-12'] })).toBe(1)
    const awards = [{ awardedOn: '2026-03-12', validThrough: '2026-03-13', entry: 0 }]
    expect(row({ attempts: [...twice, third], awards })).toBe(1)
  })

  it('are past due from the day after the last', () => {
    const attempts = [sheet('NO-GO', 'standing', '2026-03-01')]
    const pastDue = (day: string) => openRetests(sword(), [], history({ attempts }), day)[0]!.pastDue
    expect(pastDue('2026-03-31')).toBe(false)
    expect(pastDue('2026-04-01')).toBe(true)
  })

  // Reviews of that standard from the day of the latest NO-GO to the day asked about.
  it.each([
    ['2026-03-19', 'standing', true],
    ['2026-03-20', 'standing', false],
    ['2026-03-25', 'standing', false],
    ['2026-03-26', 'standing', true],
    ['2026-03-20', 'marching', true],
  ])('after a third NO-GO on 20 March, with a review on %s of %s, need one on the 25th: %s', (on, standard, needs) => {
    const attempts = ['2026-03-01', '2026-03-09', '2026-03-20'].map((day) => sheet('NO-GO', 'standing', day))
    const [retest] = openRetests(sword(), [], history({ attempts, reviews: [{ standard, on }] }), '2026-03-25')
    expect(retest!.needsReview).toBe(needs)
  })
})

describe('sheets', () => {
  it('that finish at the same instant are ordered by id', () => {
    const failed = sheet('NO-GO', 'standing', '2026-03-01', { id: 'aa' })
    const passed = sheet('GO', 'standing', '2026-03-01', { id: 'bb' })
    const status = (attempts: Attempt[]) => certificationStatus(sword(), [], history({ attempts }), '2026-03-01').status
    expect(status([passed, failed])).toBe('part way')
    expect(status([{ ...passed, id: 'a9' }, failed])).toBe('retest due')
  })

  it('with another arm than those of the certification, or none, are not looked at', () => {
    const certification = { ...sword(), arms: ['sword'] }
    const status = (arm: string | null) =>
      certificationStatus(
        certification,
        [],
        history({ attempts: [sheet('GO', 'standing', '2026-03-01', { arm })] }),
        '2026-03-01',
      ).status
    expect(status('sword')).toBe('part way')
    expect(status('saber')).toBe('no test yet')
    expect(status(null)).toBe('no test yet')
  })
})

describe('a soldier who moves to an earlier time zone', () => {
  // A sheet finished on the 11th in Auckland, and one finished two hours later, still on the 10th in Honolulu.
  const at = (instant: string, zone: string) => ({ finishedAt: Date.parse(instant), day: dayInZone(instant, zone) })
  const inAuckland = at('2026-02-10T20:00:00Z', 'Pacific/Auckland')
  const inHonolulu = at('2026-02-10T22:00:00Z', 'Pacific/Honolulu')
  const first = sheet('NO-GO', 'standing', '', inAuckland)
  const second = sheet('GO', 'standing', '', inHonolulu)
  const attempts = [second, first]

  it('has the sheets in the order of their instants, whatever their days', () => {
    expect([first.day, second.day]).toEqual(['2026-02-11', '2026-02-10'])
    const numbers = attemptNumbers(walk(sword(), [], history({ attempts })))
    expect([numbers.get(first.id), numbers.get(second.id)]).toEqual([1, 2])
    expect(certificationStatus(sword(), [], history({ attempts }), '2026-02-11')).toMatchObject({
      status: 'part way',
      toward: [{ on: '2026-02-10' }],
      retestOpen: [],
    })
  })

  it('has the status of an earlier day from sheets of that day alone, the award of the day after them', () => {
    const awards = [{ awardedOn: '2026-02-10', validThrough: '2026-02-01', entry: 0 }]
    const asOfTenth = (more: Attempt[]) =>
      certificationStatus(sword(), [], history({ attempts: [second, ...more], awards }), '2026-02-10')
    expect(asOfTenth([])).toMatchObject({ status: 'lapsed', toward: [] })
    expect(asOfTenth([first])).toEqual(asOfTenth([]))
    const soldier = history({ attempts, awards })
    const { statuses } = certificationSpans(sword(), [], soldier, walk(sword(), [], soldier))
    expect(statuses[0]).toMatchObject({ from: '2026-02-10', through: '2026-02-10', value: { status: 'lapsed' } })
  })
})
