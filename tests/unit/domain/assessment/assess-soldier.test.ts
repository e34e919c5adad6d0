import { describe, expect, it } from 'vitest'
import { assessSoldier } from '../../../../server/domain/assessment/assess-soldier.ts'
import type { AssessedSheet, Dossier } from '../../../../server/domain/assessment/types.ts'
import { amended, assessed, givenCatalogue, givenDossier, givenSheet, PEOPLE, SWORD, settled } from './given.ts'

const assess = (more: Partial<Dossier>, catalogue = givenCatalogue()) =>
  assessSoldier(catalogue, givenDossier(more), PEOPLE)

const stateOf = (dossier: Dossier, id: string) => dossier.sheets.find((sheet) => sheet.id === id)!.state

const arrive = (dossier: Dossier, ...sheets: AssessedSheet[]): Dossier =>
  settled({ ...dossier, sheets: [...dossier.sheets, ...sheets] })

const failed = (id: string, day: string) => givenSheet(id, day, { outcome: 'NO-GO' })

describe('attempts', () => {
  it('are numbered by certification and told by kind', () => {
    const sheets = [
      failed('a', '2026-01-05'),
      givenSheet('b', '2026-01-15'),
      givenSheet('c', '2026-01-16', { standard: 'marching' }),
      failed('d', '2026-06-01'),
      failed('e', '2026-06-20'),
    ]
    const { sheets: found, certifications } = assess({ sheets })
    expect(found.map(({ id, attempts, kind }) => [id, attempts, kind])).toEqual([
      ['a', [{ certification: 'sword', number: 1 }], 'first'],
      ['b', [{ certification: 'sword', number: 2 }], 'second'],
      ['c', [{ certification: 'sword', number: 1 }], 'first'],
      ['d', [{ certification: 'sword', number: 1 }], 'renewal'],
      ['e', [{ certification: 'sword', number: 2 }], 'second'],
    ])
    expect(certifications[0]!.earned).toEqual([
      {
        sheetId: 'c',
        awardedOn: '2026-01-16',
        validThrough: '2027-01-16',
        inForceFrom: '2026-01-16',
        finishedAt: Date.parse('2026-01-16T12:00:00Z'),
      },
    ])
  })

  it('are first only where no test of the standard and no award that requires it lies before', () => {
    const drill = { ...SWORD, code: 'drill', standards: ['standing'], arms: ['rifle'] }
    const catalogue = givenCatalogue({ certifications: [SWORD, drill] })
    const kinds = (more: Partial<Dossier>) => assess(more, catalogue).sheets.map(({ kind }) => kind)
    const rifle = givenSheet('b', '2026-02-15', { arm: 'rifle' })
    expect(kinds({ sheets: [failed('a', '2026-01-05'), rifle] })).toEqual(['first', 'second'])
    expect(kinds({ sheets: [failed('a', '2026-01-05'), rifle, givenSheet('c', '2026-03-15')] })).toEqual([
      'first',
      'second',
      'renewal',
    ])
    const other = { standard: 'rifle-standing', waived: ['sponsor-not-certified'] }
    expect(kinds({ sheets: [givenSheet('a', '2026-01-05', other), givenSheet('b', '2026-01-06', other)] })).toEqual([
      'first',
      'renewal',
    ])
    const award = { awardedOn: '2026-01-05', validThrough: '2027-01-05', entry: 0 }
    const awards = new Map([['sword', [award]]])
    expect(kinds({ awards, sheets: [givenSheet('a', '2026-01-05')] })).toEqual(['first'])
    expect(kinds({ awards, sheets: [givenSheet('a', '2026-01-06')] })).toEqual(['renewal'])
    expect(kinds({ awards, sheets: [failed('a', '2026-01-04'), givenSheet('b', '2026-01-20')] })).toEqual([
      'first',
      'renewal',
    ])
  })

  it('are retests while NO-GOs follow each other, until a GO, an award or a withdrawal', () => {
    const kinds = (more: Partial<Dossier>) => assess(more).sheets.map(({ kind }) => kind)
    const three = [failed('a', '2026-01-05'), failed('b', '2026-01-15'), failed('c', '2026-02-01')]
    const fourth = givenSheet('d', '2026-02-20', { state: 'counted' })
    expect(kinds({ sheets: [...three, fourth] })).toEqual(['first', 'second', 'later', 'later'])
    const withdrawals = new Map([['sword', ['2026-01-20']]])
    expect(kinds({ withdrawals, sheets: three })).toEqual(['first', 'second', 'renewal'])
    const before = new Map([['sword', ['2026-01-01']]])
    expect(kinds({ withdrawals: before, sheets: three })).toEqual(['first', 'second', 'later'])
  })

  it('are renewals behind an award that another standard of the certification made', () => {
    const catalogue = givenCatalogue({ certifications: [{ ...SWORD, arms: ['rifle'] }] })
    const counted = { state: 'counted' } as const
    const rifle = { arm: 'rifle', ...counted } as const
    const sheets = [
      givenSheet('a', '2026-01-05', rifle),
      { ...failed('b', '2026-01-10'), ...counted },
      givenSheet('c', '2026-01-16', { standard: 'marching', ...rifle }),
      givenSheet('d', '2026-02-10', counted),
    ]
    expect(assess({ sheets }, catalogue).sheets.map(({ id, kind }) => [id, kind])).toEqual([
      ['a', 'first'],
      ['b', 'renewal'],
      ['c', 'first'],
      ['d', 'renewal'],
    ])
  })

  it('are none on practice, void, second, held and rejected sheets', () => {
    const kindOf = (more: Partial<AssessedSheet>) => {
      const { kind, attempts } = assessed('a', givenDossier({ sheets: [givenSheet('a', '2026-01-05', more)] }))
      return [kind, attempts.length]
    }
    expect(kindOf({})).toEqual(['first', 1])
    expect(kindOf({ purpose: 'practice' })).toEqual([null, 0])
    expect(kindOf({ outcome: 'VOID' })).toEqual([null, 0])
    expect(kindOf({ secondOf: 'z', isSecond: true })).toEqual([null, 0])
    expect(kindOf({ state: 'rejected' })).toEqual([null, 0])
    // A held one is told the number it will have.
    expect(kindOf({ conditionsMet: false })).toEqual([null, 1])
    expect(kindOf({ outcomeOnly: true, conditionsMet: false })).toEqual(['first', 1])
  })

  it('are renumbered by a late paper sheet', () => {
    const before = arrive(givenDossier(), failed('b', '2026-01-15'))
    expect(assessed('b', before)).toMatchObject({ kind: 'first', attempts: [{ number: 1 }] })
    const after = arrive(before, failed('a', '2026-01-02'))
    expect(assessed('b', after)).toMatchObject({ kind: 'second', attempts: [{ number: 2 }], state: 'counted' })
  })
})

describe('a held sheet', () => {
  it('counts for nothing until it counts', () => {
    const sheets = [givenSheet('a', '2026-01-05', { conditionsMet: false }), failed('b', '2026-01-06')]
    const { sheets: found, certifications } = assess({ sheets })
    expect(found).toMatchObject([
      { id: 'a', state: 'held', kind: null },
      { id: 'b', state: 'counted', kind: 'first', attempts: [{ number: 1 }] },
    ])
    expect(certifications[0]!.statuses).toMatchObject([
      { from: '2026-01-06', value: { status: 'retest due', toward: [] } },
    ])
  })

  it('counts by itself when the earlier sheet comes that it hung on', () => {
    const coach = {
      sponsorships: [...givenDossier().sponsorships, { sponsorId: 'grader', from: '2024-01-01', to: '2025-01-01' }],
    }
    const other = { graderId: 'other-grader', waived: ['grader-not-qualified'] }
    const held = arrive(givenDossier(coach), givenSheet('c', '2026-01-10'))
    expect(stateOf(held, 'c')).toBe('held')
    const half = arrive(held, givenSheet('a', '2026-01-02', other))
    expect(stateOf(half, 'c')).toBe('held')
    const whole = arrive(half, givenSheet('b', '2026-01-03', { standard: 'marching', ...other }))
    expect(stateOf(whole, 'c')).toBe('counted')
    expect(assessed('c', whole)).toMatchObject({ broken: [], tolerated: [], kind: 'renewal' })
  })

  it('counts when what it breaks is waived, and is then looked at by the sheets after it', () => {
    const held = arrive(
      givenDossier(),
      { ...failed('a', '2026-01-05'), conditionsMet: false },
      failed('b', '2026-01-20'),
    )
    expect([stateOf(held, 'a'), stateOf(held, 'b')]).toEqual(['held', 'counted'])
    const sheets = held.sheets.map((one) => (one.id === 'a' ? { ...one, waived: ['conditions'] } : one))
    const counted = settled({ ...held, sheets })
    expect(assessed('a', counted)).toMatchObject({ state: 'counted', broken: ['conditions'], tolerated: [] })
    expect(assessed('b', counted).attempts).toEqual([{ certification: 'sword', number: 2 }])
  })
})

describe('a counted sheet', () => {
  it('that turns out to break a rule is flagged, never undone', () => {
    const before = arrive(givenDossier(), givenSheet('b', '2026-01-08'))
    const after = arrive(before, failed('a', '2026-01-05'))
    expect(assessed('b', after)).toMatchObject({ state: 'counted', broken: ['too-early'], tolerated: ['too-early'] })
    const again = settled(settled(after))
    expect(again).toEqual(after)
  })

  it('loses the flag when the rule is no longer broken', () => {
    const flagged = arrive(arrive(givenDossier(), givenSheet('b', '2026-01-08')), failed('a', '2026-01-05'))
    const sheets = flagged.sheets.map((one) => (one.id === 'a' ? { ...one, state: 'rejected' as const } : one))
    expect(assessed('b', settled({ ...flagged, sheets }))).toMatchObject({
      state: 'counted',
      broken: [],
      tolerated: [],
    })
  })

  it('is judged again when it is amended, and comes back by the reverse', () => {
    const before = arrive(givenDossier(), failed('a', '2026-01-05'), givenSheet('b', '2026-01-20'))
    const after = settled(amended(before, 'a', { conditionsMet: false }))
    expect([stateOf(after, 'a'), stateOf(after, 'b')]).toEqual(['held', 'counted'])
    expect(assessed('b', after).attempts).toEqual([{ certification: 'sword', number: 1 }])
    expect(settled(amended(after, 'a', { conditionsMet: true }))).toEqual(before)
  })

  it('keeps its flag through an amendment that leaves it', () => {
    const flagged = arrive(arrive(givenDossier(), givenSheet('b', '2026-01-08')), failed('a', '2026-01-05'))
    const regraded = settled(amended(flagged, 'b', { outcome: 'NO-GO' }))
    expect(assessed('b', regraded)).toMatchObject({ state: 'counted', tolerated: ['too-early'] })
    const worse = settled(amended(flagged, 'b', { conditionsMet: false }))
    expect(assessed('b', worse)).toMatchObject({ state: 'held', broken: ['conditions', 'too-early'] })
    expect(settled(amended(worse, 'b', { conditionsMet: true }))).toEqual(flagged)
  })
})

describe('overlapping sheets', () => {
  const overlaps = (...sheets: AssessedSheet[]) =>
    assess({ sheets })
      .sheets.filter((sheet) => sheet.overlaps)
      .map(({ id }) => id)

  it('are flagged and count', () => {
    const first = failed('a', '2026-01-05')
    const half = { startedAt: first.startedAt + 1, finishedAt: first.finishedAt + 1 }
    const second = givenSheet('b', '2026-01-05', { standard: 'marching', ...half })
    expect(assess({ sheets: [first, second] }).sheets).toMatchObject([
      { state: 'counted', overlaps: true, kind: 'first' },
      { state: 'counted', overlaps: true, kind: 'first' },
    ])
  })

  it('are not those that touch, those of two graders of one attempt, or rejected ones', () => {
    const first = givenSheet('a', '2026-01-05', { hour: 12 })
    expect(overlaps(first, givenSheet('b', '2026-01-05', { hour: 13 }))).toEqual([])
    expect(overlaps(first, givenSheet('b', '2026-01-05', { hour: 12.5 }))).toEqual(['a', 'b'])
    expect(overlaps(first, givenSheet('b', '2026-01-05', { secondOf: 'a', isSecond: true }))).toEqual([])
    expect(overlaps(first, givenSheet('b', '2026-01-05', { state: 'rejected' }))).toEqual([])
  })
})

describe('the unit', () => {
  const periods = [
    { from: '2026-01-01', through: '2026-01-31', unitId: 'first-platoon', arms: ['sword'] },
    { from: '2026-02-01', through: '2026-02-28', unitId: 'second-platoon', arms: ['sword'] },
  ]

  it.each([
    ['2025-12-31', null],
    ['2026-01-01', 'first-platoon'],
    ['2026-01-31', 'first-platoon'],
    ['2026-02-01', 'second-platoon'],
    ['2026-03-01', null],
  ])('of a sheet of %s is that of the day: %s', (day, unitId) => {
    expect(assessed('a', givenDossier({ periods, sheets: [givenSheet('a', day)] })).unitId).toBe(unitId)
  })
})
