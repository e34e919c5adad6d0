import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { dutyTimes } from '../../../../server/domain/manning/duty-times.ts'
import { fitOf } from '../../../../server/domain/manning/fit-of.ts'
import type { PostNeed, SoldierFacts, WhyNot } from '../../../../server/domain/manning/types.ts'
import { whyNot } from '../../../../server/domain/manning/why-not.ts'

const at = (time: string, day = '2026-12-05') => Date.parse(`${day}T${time}:00Z`)
const MINUTE = 60_000

const times = dutyTimes({
  day: '2026-12-05',
  reportsAt: at('09:00'),
  endsAt: at('11:00'),
  minutesBefore: 30,
  minutesAfter: 15,
  rehearsals: [{ day: '2026-12-03', startsAt: at('13:00', '2026-12-03'), endsAt: at('14:00', '2026-12-03') }],
})
const occasion = { reportsAt: at('09:00'), times }

const need: PostNeed = { arm: 'sword', grades: ['SGT'], minHeightCm: null, maxHeightCm: null }
const able: SoldierFacts = {
  grade: 'SGT',
  arms: ['sword'],
  heightCm: null,
  status: 'certified',
  validThrough: '2026-12-31',
  missing: [],
  certifiedAt: null,
  absences: [],
  duties: [],
}
const reasons = (facts: Partial<SoldierFacts>, post: Partial<PostNeed> = {}) =>
  whyNot({ ...need, ...post }, occasion, { ...able, ...facts }).map(({ reason }) => reason)

it('duty runs from before reporting until after the end, and so around rehearsals', () => {
  expect(times).toEqual([
    { at: 'ceremony', day: '2026-12-05', from: at('08:30'), to: at('11:15') },
    { at: 'rehearsal', day: '2026-12-03', from: at('12:30', '2026-12-03'), to: at('14:15', '2026-12-03') },
  ])
})

describe('who may not stand', () => {
  it('nothing speaks against who is certified, of the grade and arm, present and free', () => {
    expect(reasons({})).toEqual([])
  })

  it('not in the strength is said alone', () => {
    expect(reasons({ grade: null, status: 'lapsed', arms: [] })).toEqual(['not in strength'])
  })

  it('a missing certification comes with what is missing; a suspension in its place', () => {
    expect(whyNot(need, occasion, { ...able, status: 'part way', missing: ['marching'], validThrough: null })).toEqual([
      { reason: 'not certified', status: 'part way', missing: ['marching'], validThrough: null },
    ])
    expect(reasons({ status: 'suspended' })).toEqual(['suspended'])
  })

  it('a test of that day must end by the time of reporting', () => {
    expect(reasons({ certifiedAt: at('09:00') })).toEqual([])
    expect(whyNot(need, occasion, { ...able, certifiedAt: at('09:00') + 1 })).toEqual([
      { reason: 'test ends too late', finishedAt: '2026-12-05T09:00:00.001Z' },
    ])
  })

  it('arm and grade must be those of the post', () => {
    expect(reasons({ arms: ['rifle'], grade: 'CPL' })).toEqual(['wrong arm', 'wrong grade'])
    expect(reasons({ arms: [], grade: 'CPL' }, { arm: null, grades: null })).toEqual([])
    expect(reasons({}, { grades: [] })).toEqual(['wrong grade'])
  })

  it.each([
    [164, ['outside the height band']],
    [165, []],
    [190, []],
    [191, ['outside the height band']],
    [null, ['height not known']],
  ])('a height of %s in a band from 165 to 190', (heightCm, expected) => {
    expect(reasons({ heightCm }, { minHeightCm: 165, maxHeightCm: 190 })).toEqual(expected)
    expect(reasons({ heightCm })).toEqual([])
  })

  it('a band may be open at one end', () => {
    expect(reasons({ heightCm: 220 }, { minHeightCm: 165 })).toEqual([])
    expect(reasons({ heightCm: 120 }, { maxHeightCm: 190 })).toEqual([])
  })

  it.each([
    ['2026-12-05', '2026-12-05', 'ceremony'],
    ['2026-12-01', null, 'ceremony'],
    ['2026-12-03', '2026-12-04', 'rehearsal'],
    ['2026-12-04', '2026-12-04', undefined],
    ['2026-12-06', null, undefined],
  ])('an absence from %s through %s keeps from the %s', (from, through, expected) => {
    const found = whyNot(need, occasion, { ...able, absences: [{ kind: 'leave', from, through }] })
    expect(found.map((why) => why.reason === 'absent' && why.at)).toEqual(expected ? [expected] : [])
  })

  const duty = (from: string, to: string, day = '2026-12-05') => ({
    duties: [{ kind: 'test' as const, title: null, from: at(from, day), to: at(to, day) }],
  })
  it('another duty overlaps where it shares time, with the time around; touching is no overlap', () => {
    expect(reasons(duty('08:00', '08:30'))).toEqual([])
    expect(reasons(duty('08:00', '08:31'))).toEqual(['other duty'])
    expect(reasons(duty('11:14', '12:00'))).toEqual(['other duty'])
    expect(reasons(duty('11:15', '12:00'))).toEqual([])
    expect(reasons(duty('13:59', '15:00', '2026-12-03'))).toEqual(['other duty'])
    expect(reasons(duty('14:15', '15:00', '2026-12-03'))).toEqual([])
  })
})

const instant = fc.integer({ min: at('06:00'), max: at('14:00') })
const facts: fc.Arbitrary<SoldierFacts> = fc.record({
  grade: fc.option(fc.constantFrom('SGT', 'CPL')),
  arms: fc.subarray(['sword', 'rifle']),
  heightCm: fc.option(fc.integer({ min: 150, max: 200 })),
  status: fc.constantFrom('certified', 'suspended', 'part way', 'lapsed', 'no test yet', 'retest due'),
  validThrough: fc.constant(null),
  missing: fc.subarray(['standing', 'marching']),
  certifiedAt: fc.option(instant),
  absences: fc.constant([]),
  duties: fc.array(
    fc.tuple(instant, fc.integer({ min: 1, max: 200 })).map(([from, minutes]) => ({
      kind: 'ceremony' as const,
      title: null,
      from,
      to: from + minutes * MINUTE,
    })),
    { maxLength: 3 },
  ),
})
const needs: fc.Arbitrary<PostNeed> = fc.record({
  arm: fc.option(fc.constantFrom('sword', 'rifle')),
  grades: fc.option(fc.subarray(['SGT', 'CPL'])),
  minHeightCm: fc.option(fc.integer({ min: 150, max: 175 })),
  maxHeightCm: fc.option(fc.integer({ min: 176, max: 200 })),
})

describe('laws', () => {
  it('a post that asks for less never finds more reasons', () => {
    fc.assert(
      fc.property(needs, facts, (post, soldier) => {
        const looser = { ...post, arm: null, grades: null, minHeightCm: null }
        const keys = (one: WhyNot[]) => one.map((why) => JSON.stringify(why))
        const strict = keys(whyNot(post, occasion, soldier))
        const left = keys(whyNot(looser, occasion, soldier)).filter((key) => !key.includes('height'))
        expect(strict).toEqual(expect.arrayContaining(left))
      }),
      { seed: 41 },
    )
  })

  it('somebody may stand only if certified, and a duty more never helps', () => {
    fc.assert(
      fc.property(needs, facts, instant, (post, soldier, from) => {
        const before = whyNot(post, occasion, soldier)
        if (before.length === 0) expect(soldier.status).toBe('certified')
        const extra = { kind: 'grading' as const, title: null, from, to: from + 30 * MINUTE }
        const after = whyNot(post, occasion, { ...soldier, duties: [...soldier.duties, extra] })
        const overlaps = soldier.grade !== null && from < at('11:15') && from + 30 * MINUTE > at('08:30')
        expect(after.length - before.length).toBe(overlaps ? 1 : 0)
      }),
      { seed: 42 },
    )
  })

  it('of several posts those are taken where nothing speaks against it', () => {
    fc.assert(
      fc.property(fc.array(needs, { minLength: 1, maxLength: 4 }), facts, (posts, soldier) => {
        const fit = fitOf(posts, occasion, () => soldier)
        expect(fit.canTake).toEqual(posts.filter((post) => whyNot(post, occasion, soldier).length === 0))
        expect(fit.whyNot.length === 0).toBe(fit.canTake.length > 0)
      }),
      { seed: 43 },
    )
  })
})
