import { describe, expect, it } from 'vitest'
import { couldFill, isShort, postsAlike } from '../../../web/features/stand/could-fill.ts'
import { inRanks } from '../../../web/features/stand/in-ranks.ts'
import { linesByPlatoon } from '../../../web/features/stand/lines-by-platoon.ts'
import { sayNote } from '../../../web/features/stand/say-note.ts'
import { sayPosts, sayStand, sayWhyNot, sayWhyShort } from '../../../web/features/stand/say-stand.ts'
import { worthARow } from '../../../web/features/stand/worth-a-row.ts'
import { emptyTally } from '../../../web/model/tally-status.ts'
import { id, item, post, unit } from './given.ts'

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
    sayPosts({ title: 'Founders’ Parade', day, posts, filled }, TODAY)
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
    expect(sayWhyShort(formation)).toBe(
      'One has nobody named. Named, but cannot stand that day: SGT Okonjo (wrong grade).',
    )
    expect(sayWhyShort([post({ soldier: soldier(2, 'Ashdown, Mirela') })])).toBe('Everyone named can stand that day.')
  })
  it('name three at most who cannot stand', () => {
    const formation = ['Aa, A', 'Bb, B', 'Cc, C', 'Dd, D', 'Ee, E'].map((name, index) =>
      post({ soldier: soldier(index, name, ['suspended']) }),
    )
    expect(sayWhyShort(formation)).toBe(
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

describe('who could be named to a short post', () => {
  const short = post({ certification: 'sword', grades: ['SGT'] })
  const formation = [short, post({ soldier: soldier(9, 'Ashdown, Mirela') })]
  it('is certified that day, of the grade, and at no other post', () => {
    const items = [
      item({ soldierId: id(1) }),
      item({ soldierId: id(2), grade: 'CPL' }),
      item({ soldierId: id(3), status: 'lapsed' }),
      item({ soldierId: id(4), certification: 'rifle' }),
      item({ soldierId: id(9) }),
    ]
    expect(couldFill(short, formation, items).map(({ soldierId }) => soldierId)).toEqual([id(1)])
  })
  it('posts with the same need are told together', () => {
    const rifle = post({ certification: 'rifle' })
    expect(postsAlike([short, rifle, { ...short, id: id(71) }]).map((posts) => posts.length)).toEqual([2, 1])
  })
  it('a post whose soldier cannot stand is short', () => {
    expect(isShort(post({ soldier: soldier(1, 'A, B', ['wrong grade']) }))).toBe(true)
    expect(isShort(post({ soldier: soldier(1, 'A, B') }))).toBe(false)
    expect(isShort(post())).toBe(true)
  })
})

describe('who can stand as of a date', () => {
  const asked = { unit: '2nd Platoon', certification: 'Sword', asOf: TODAY, today: TODAY }
  it('is counted out of those required', () => {
    expect(sayStand({ ...emptyTally(), certified: 13, lapsed: 5 }, asked)).toBe(
      '13 of 18 required to hold Sword in 2nd Platoon can stand today.',
    )
    expect(sayStand({ ...emptyTally(), certified: 18 }, { ...asked, asOf: '2026-12-05' })).toBe(
      'All 18 required to hold Sword in 2nd Platoon can stand on Saturday 5 December.',
    )
    expect(sayStand({ ...emptyTally(), certified: 13, lapsed: 5 }, { ...asked, unit: '', certification: null })).toBe(
      '13 of 18 required certifications are in force today.',
    )
    expect(sayStand(emptyTally(), asked)).toBe('Nobody in 2nd Platoon is required to hold Sword today.')
  })
  it('says what keeps the others, and who lapses next when everyone is known', () => {
    const tally = { ...emptyTally(), certified: 2, 'part way': 1, 'retest due': 2, 'no test yet': 13 }
    const items = [
      item({ name: 'Later, Lea', validThrough: '2027-06-02' }),
      item({ name: 'Sooner, Sue', validThrough: '2026-12-09' }),
      item({ name: 'Extra, Eve', validThrough: '2026-12-01', required: false }),
    ]
    expect(sayWhyNot(tally, items, true, TODAY)).toBe(
      'One is part way, two have a retest due and 13 have no test yet. Next to lapse: SGT Sooner, after Wed 9 Dec.',
    )
    expect(sayWhyNot(tally, items, false, TODAY)).toBe(
      'One is part way, two have a retest due and 13 have no test yet.',
    )
    expect(sayWhyNot({ ...emptyTally(), certified: 2 }, [], true, TODAY)).toBe('')
  })
})

describe('the note on a row', () => {
  const titleOf = (code: string) => `the ${code}`
  const note = (part: Parameters<typeof item>[0]) => sayNote(item(part), '2026-12-05', TODAY, titleOf)
  it('tells of a lapse that is near', () => {
    expect(note({ validThrough: '2026-12-09' })).toBe('lapses 4 days after')
    expect(note({ validThrough: '2026-12-06' })).toBe('lapses 1 day after')
    expect(note({ validThrough: '2026-12-05' })).toBe('last day')
    expect(note({ validThrough: '2027-06-01' })).toBe('')
  })
  it('tells what is in and what is open', () => {
    const toward = [{ standard: 'standing', on: '2026-10-20', countsUntil: '2027-01-18' }]
    expect(note({ status: 'part way', toward })).toBe('the standing in, counts until 18 Jan 2027')
    expect(note({ status: 'retest due', retestOpen: ['marching'], required: false })).toBe(
      'retest open: the marching; not required',
    )
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
