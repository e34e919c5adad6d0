import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { formatNeed, formatPosts, formatTimes, formatWhyShort } from '../../../web/domain/ceremonies/format-ceremony.ts'
import { formatWay } from '../../../web/domain/ceremonies/format-way.ts'
import { formatWhyNot, shortWhyNot } from '../../../web/domain/ceremonies/format-why-not.ts'
import { inRanks } from '../../../web/domain/ceremonies/in-ranks.ts'
import { keepUnitZone } from '../../../web/words/unit-zone.ts'
import { id, post } from './given.ts'

beforeAll(() => keepUnitZone('America/New_York'))
afterAll(() => keepUnitZone(null))

const TODAY = '2026-11-25'

const soldier = (number: number, name: string, whyNot: ('wrong grade' | 'suspended')[] = []) => ({
  id: id(number),
  rosterNumber: String(number),
  unitId: null,
  name,
  grade: 'SGT',
  status: whyNot.length ? ('lapsed' as const) : ('certified' as const),
  validThrough: null,
  whyNot: whyNot.map((reason) => ({ reason })),
})

describe('the posts of a ceremony', () => {
  const say = (posts: number, filled: number, day = '2026-12-05') =>
    formatPosts({ title: 'Founders’ Parade', day, posts, filled }, TODAY)
  it('are said to be short or filled', () => {
    expect(say(11, 9)).toBe('Two of eleven posts are not filled for Founders’ Parade on Saturday 5 December.')
    expect(say(11, 10)).toBe('One of eleven posts is not filled for Founders’ Parade on Saturday 5 December.')
    expect(say(11, 11)).toBe('All eleven posts are filled for Founders’ Parade on Saturday 5 December.')
    expect(say(11, 0)).toBe('None of the eleven posts is filled for Founders’ Parade on Saturday 5 December.')
    expect(say(1, 1, TODAY)).toBe('The one post is filled for Founders’ Parade today.')
    expect(say(1, 0, TODAY)).toBe('The one post is not filled for Founders’ Parade today.')
  })
  it('say why they are short', () => {
    const formation = [
      post(),
      post({ soldier: soldier(1, 'Okonjo, Tamsin', ['wrong grade']) }),
      post({ soldier: soldier(2, 'Ashdown, Mirela') }),
    ]
    expect(formatWhyShort(formation)).toBe(
      'One has nobody named. Named, but cannot stand that day: SGT Okonjo (wrong grade).',
    )
    expect(formatWhyShort([post({ soldier: soldier(2, 'Ashdown, Mirela') })])).toBe(
      'Everyone named can stand that day.',
    )
  })
  it('name three at most who cannot stand', () => {
    const formation = ['Aa, A', 'Bb, B', 'Cc, C', 'Dd, D', 'Ee, E'].map((name, index) =>
      post({ soldier: soldier(index, name, ['suspended']) }),
    )
    expect(formatWhyShort(formation)).toBe(
      'Named, but cannot stand that day: SGT Aa (suspended), SGT Bb (suspended), SGT Cc (suspended) and two more.',
    )
  })
  it('form up rank by rank from the right', () => {
    const placed = [
      { row: 2, place: 1 },
      { row: 1, place: 2 },
      { row: 1, place: 1 },
    ]
    expect(inRanks(placed)).toEqual([
      [
        { row: 1, place: 1 },
        { row: 1, place: 2 },
      ],
      [{ row: 2, place: 1 }],
    ])
  })
})

describe('a reason in words', () => {
  const words = { today: TODAY, zone: 'America/New_York', standardTitle: (code: string) => `the ${code}` }
  const say = (why: Parameters<typeof formatWhyNot>[0]) => formatWhyNot(why, words)
  it('says what is missing, and that an award lapses', () => {
    const not = { reason: 'not certified' as const, missing: ['marching'], validThrough: null }
    expect(say({ ...not, status: 'part way' })).toBe('not certified (part way): the marching still to pass')
    expect(say({ ...not, status: 'no test yet', missing: ['standing', 'marching'] })).toBe(
      'not certified (no test yet): the standing and the marching still to pass',
    )
    expect(say({ ...not, status: 'lapsed', validThrough: '2026-12-03' })).toBe('lapses after Thu 3 Dec')
  })
  it('says where somebody else wants them, in the zone of the unit', () => {
    const duty = {
      reason: 'other duty',
      kind: 'rehearsal',
      title: 'Evening Retreat',
      startsAt: '2026-12-05T14:30:00Z',
      endsAt: '2026-12-05T17:00:00Z',
    } as const
    expect(say(duty)).toBe('at another rehearsal (Evening Retreat), Sat 5 Dec, 09:30 to 12:00')
    expect(say({ ...duty, title: null, kind: 'grading' })).toBe('grading, Sat 5 Dec, 09:30 to 12:00')
    expect(shortWhyNot(duty)).toBe('at another rehearsal')
  })
  it('says who is away, and until when', () => {
    const away = { reason: 'absent', kind: 'leave', from: '2026-12-01', through: '2026-12-09', at: 'ceremony' } as const
    expect(say(away)).toBe('on leave from Tue 1 Dec through Wed 9 Dec')
    expect(say({ ...away, kind: 'not available', through: null, at: 'rehearsal' })).toBe(
      'not available from Tue 1 Dec until further notice, when there is a rehearsal',
    )
  })
  it('says a test that ends too late and a height outside the band', () => {
    expect(say({ reason: 'test ends too late', finishedAt: '2026-12-05T15:05:00Z' })).toBe(
      'the test of that day ends at 10:05, after those named report',
    )
    expect(say({ reason: 'outside the height band', heightCm: 163 })).toBe('163 cm, outside the height band')
    expect(say({ reason: 'height not known' })).toBe('height not known')
  })
})

describe('a ceremony in a line', () => {
  const times = {
    day: '2026-12-05',
    reportsAt: '2026-12-05T14:00:00Z',
    startsAt: '2026-12-05T15:00:00Z',
    endsAt: '2026-12-05T16:15:00Z',
  }
  it('has its times, reporting only where it is earlier', () => {
    expect(formatTimes(times, TODAY, 'America/New_York')).toBe('Sat 5 Dec, report 09:00, 10:00 to 11:15')
    expect(formatTimes({ ...times, reportsAt: times.startsAt }, TODAY, 'UTC')).toBe(
      'Sat 5 Dec, 15:00 UTC time to 16:15 UTC time',
    )
  })
  it('says what a post asks for', () => {
    expect(formatNeed(post({ grades: ['SGT', 'SSG'], minHeightCm: 165, maxHeightCm: 190 }))).toBe(
      'SGT or SSG, 165 to 190 cm',
    )
    expect(formatNeed(post({ minHeightCm: 165 }))).toBe('from 165 cm')
    expect(formatNeed(post({ maxHeightCm: 190 }))).toBe('up to 190 cm')
    expect(formatNeed(post())).toBe('')
  })
})

it('the way to a certification hangs on passing', () => {
  const way = [
    { standard: 'standing', on: '2026-12-02', booked: true, testDayId: id(1) },
    { standard: 'marching', on: '2026-12-09', booked: false, testDayId: id(2) },
  ]
  expect(formatWay(way, TODAY, (code) => `the ${code}`)).toBe(
    'if passed: the standing, booked Wed 2 Dec and the marching, possible Wed 9 Dec',
  )
})
