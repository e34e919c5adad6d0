import { describe, expect, it } from 'vitest'
import { fits } from '../../../../server/domain/assessment/surroundings.ts'
import type {
  AssessedSheet,
  Dossier,
  JudgingCatalogue,
  Qualification,
} from '../../../../server/domain/assessment/types.ts'
import type { Certification } from '../../../../server/domain/certification/types.ts'
import {
  assessed,
  carriedOver,
  givenCatalogue,
  givenDossier,
  givenPerson,
  givenSheet,
  PEOPLE,
  SWORD,
  TERMS,
} from './given.ts'

/** What a test of 2 March 2026 breaks, sheet `judged`; earlier sheets and all else as given. */
function broken(
  more: Partial<Dossier> = {},
  sheet: Partial<AssessedSheet> & { hour?: number } = {},
  catalogue: Partial<JudgingCatalogue> = {},
  people: Readonly<Record<string, Partial<Qualification>>> = {},
): readonly string[] {
  const dossier = givenDossier({
    ...more,
    sheets: [...(more.sheets ?? []), givenSheet('judged', '2026-03-02', sheet)],
  })
  const known = new Map([...PEOPLE, ...Object.entries(people).map(([id, one]) => [id, givenPerson(one)] as const)])
  return assessed('judged', dossier, givenCatalogue(catalogue), known).broken
}

const failed = (id: string, day: string, more: Partial<AssessedSheet> = {}) =>
  givenSheet(id, day, { outcome: 'NO-GO', ...more })

const counted = { state: 'counted' } as const

describe('fits', () => {
  it.each([
    [[], [], true],
    [[], ['rifle'], true],
    [['sword'], ['rifle', 'sword'], true],
    [['sword', 'saber'], ['saber'], true],
    [['sword'], ['rifle'], false],
    [['sword'], [], false],
  ])('arms %j and a soldier with %j: %s', (certification, soldier, expected) => {
    expect(fits(certification, soldier)).toBe(expected)
  })
})

describe('a valid test', () => {
  it('breaks nothing', () => {
    expect(broken()).toEqual([])
  })
})

describe('a grader who coached the candidate', () => {
  const coached = (from: string, to: string | null): Partial<Dossier> => ({
    sponsorships: [...givenDossier().sponsorships, { sponsorId: 'grader', from, to }],
  })
  const award = (awardedOn: string) => new Map([['sword', [{ awardedOn, validThrough: '2099-01-01', entry: 0 }]]])

  it('ever, without an award since', () => {
    expect(broken(coached('2021-01-01', '2021-02-01'))).toEqual(['grader-coached'])
  })

  it.each([
    ['2025-06-01', []],
    ['2025-06-02', ['grader-coached']],
  ])('to %s, with an award carried over on 1 June 2025: %j', (to, rules) => {
    expect(broken({ ...coached('2024-01-01', to), awards: award('2025-06-01') })).toEqual(rules)
  })

  it('up to an award carried over on the day of the test, which comes after it', () => {
    expect(broken({ ...coached('2024-01-01', '2025-01-01'), awards: award('2026-03-02') })).toEqual(['grader-coached'])
    expect(broken({ ...coached('2024-01-01', '2025-01-01'), awards: award('2026-03-01') })).toEqual([])
  })

  it('up to an award that a sheet made earlier the same day', () => {
    const sheets = [
      givenSheet('a', '2026-03-01', counted),
      givenSheet('b', '2026-03-02', { ...counted, standard: 'marching', hour: 8 }),
    ]
    expect(broken({ ...coached('2024-01-01', '2026-03-02'), sheets })).toEqual([])
    expect(broken({ ...coached('2024-01-01', null), sheets })).toEqual(['grader-coached'])
    expect(broken({ ...coached('2024-01-01', '2026-03-02'), sheets: sheets.slice(0, 1) })).toEqual(['grader-coached'])
  })

  it('goes by the latest award in any certification that requires the standard, and in no other', () => {
    const drill: Certification = { ...SWORD, code: 'drill', standards: ['standing'] }
    const rifle: Certification = { ...SWORD, code: 'rifle', standards: ['rifle-standing'] }
    const certifications = [SWORD, drill, rifle]
    const carried = [{ awardedOn: '2025-06-01', validThrough: '2025-06-30', entry: 0 }]
    const past = coached('2024-01-01', '2025-01-01')
    const older = [{ awardedOn: '2024-06-01', validThrough: '2024-06-30', entry: 0 }]
    const awards = new Map([
      ['sword', older],
      ['drill', carried],
    ])
    expect(broken({ ...past, awards }, {}, { certifications })).toEqual([])
    expect(broken({ ...past, awards: new Map([['sword', older]]) }, {}, { certifications })).toEqual(['grader-coached'])
    expect(broken({ ...past, awards: new Map([['drill', carried]]) }, {}, { certifications })).toEqual([])
    expect(broken({ ...past, awards: new Map([['rifle', carried]]) }, {}, { certifications })).toEqual([
      'grader-coached',
    ])
  })
})

describe('a grader', () => {
  const grading = (grader: Partial<Qualification>, catalogue: Partial<JudgingCatalogue> = {}) =>
    broken({}, { graderId: 'other' }, catalogue, { other: grader })

  it.each([
    ['2026-03-02', '2026-03-02', []],
    ['2026-01-01', null, []],
    ['2026-01-01', '2026-03-01', ['grader-not-qualified']],
    ['2026-03-03', null, ['grader-not-qualified']],
  ])('appointed from %s to %s on 2 March: %j', (from, to, rules) => {
    expect(grading({ appointments: [{ standard: 'standing', from, to }] })).toEqual(rules)
  })

  it('is appointed for this standard, or certified in a certification that requires it', () => {
    expect(grading({ appointments: [{ standard: 'marching', from: '2026-01-01', to: null }] })).toEqual([
      'grader-not-qualified',
    ])
    expect(grading({ awards: [carriedOver('2026-01-01', '2026-12-31')] })).toEqual([])
    expect(grading({ awards: [carriedOver('2026-01-01', '2026-12-31', 'rifle')] })).toEqual(['grader-not-qualified'])
    const rifle: Certification = { ...SWORD, code: 'rifle', standards: ['standing'], arms: ['rifle'] }
    expect(
      grading({ awards: [carriedOver('2026-01-01', '2026-12-31', 'rifle')] }, { certifications: [SWORD, rifle] }),
    ).toEqual([])
  })

  it('of whom nothing is known is not qualified', () => {
    expect(broken({}, { graderId: 'stranger' })).toEqual(['grader-not-qualified'])
  })

  it('who is suspended is not certified, though an appointment still holds', () => {
    const awards = [carriedOver('2026-01-01', '2026-12-31')]
    const suspensions = [{ certification: 'sword', from: '2026-03-02', lift: null }]
    expect(grading({ awards, suspensions })).toEqual(['grader-not-qualified'])
    const appointments = [{ standard: 'standing', from: '2026-01-01', to: null }]
    expect(grading({ awards, suspensions, appointments })).toEqual([])
  })

  it('certified by a sheet of the same day grades from that sheet on', () => {
    const madeBy = { id: 'own', finishedAt: Date.parse('2026-03-02T12:00:00Z') }
    const awards = [{ ...carriedOver('2026-03-02', '2027-03-02'), madeBy }]
    const at = (hour: number) => broken({}, { graderId: 'other', hour }, {}, { other: { awards } })
    expect(at(11)).toEqual(['grader-not-qualified'])
    expect(at(13)).toEqual([])
  })
})

describe('a sponsor', () => {
  it('is certified that day', () => {
    const sponsor = (validThrough: string) =>
      broken({}, {}, {}, { sponsor: { awards: [carriedOver('2025-03-02', validThrough)] } })
    expect(sponsor('2026-03-02')).toEqual([])
    expect(sponsor('2026-03-01')).toEqual(['sponsor-not-certified'])
  })

  it('does not do by an appointment', () => {
    const appointments = [{ standard: 'standing', from: '2026-01-01', to: null }]
    expect(broken({}, {}, {}, { sponsor: { appointments } })).toEqual(['sponsor-not-certified'])
  })
})

describe('a retest', () => {
  it.each([
    ['2026-02-23', []],
    ['2026-02-24', ['too-early']],
  ])('on 2 March after a NO-GO of %s, with a week to wait: %j', (day, rules) => {
    expect(broken({ sheets: [failed('a', day)] })).toEqual(rules)
  })

  it('waits for a NO-GO that counts, of that standard, by a first grader, in a test', () => {
    const early = (more: Partial<AssessedSheet>) => broken({ sheets: [failed('a', '2026-03-01', more)] })
    expect(early({})).toEqual(['too-early'])
    expect(early({ state: 'rejected' })).toEqual([])
    expect(early({ conditionsMet: false })).toEqual([])
    expect(early({ conditionsMet: false, waived: ['conditions'] })).toEqual(['too-early'])
    expect(early({ standard: 'marching' })).toEqual([])
    expect(early({ secondOf: 'z', isSecond: true })).toEqual([])
    expect(early({ purpose: 'practice' })).toEqual([])
    expect(early({ outcome: 'VOID', isVoid: true })).toEqual([])
    expect(early({ arm: 'rifle' })).toEqual([])
  })

  it('waits in every certification that requires the standard and fits the candidate that day', () => {
    const rifle: Certification = { ...SWORD, code: 'drill', arms: ['rifle'], terms: [{ ...TERMS, waitDays: 30 }] }
    const certifications = [SWORD, rifle]
    const sheets = [failed('a', '2026-02-10', { arm: 'rifle' })]
    expect(broken({ sheets }, {}, { certifications })).toEqual(['too-early'])
    const periods = [
      { from: '2020-01-01', through: '2026-02-28', unitId: 'first-platoon', arms: ['sword', 'rifle'] },
      { from: '2026-03-01', through: null, unitId: 'first-platoon', arms: ['sword'] },
    ]
    expect(broken({ sheets, periods }, {}, { certifications })).toEqual([])
  })

  it('needs a review after three NO-GOs in a row, from the day of the last to its own', () => {
    const sheets = ['2026-01-05', '2026-01-15', '2026-02-10'].map((day, index) => failed(`a${index}`, day))
    const with3 = (on?: string) => broken({ sheets, reviews: on === undefined ? [] : [{ standard: 'standing', on }] })
    expect(with3()).toEqual(['review-missing'])
    expect(with3('2026-02-09')).toEqual(['review-missing'])
    expect(with3('2026-02-10')).toEqual([])
    expect(with3('2026-03-02')).toEqual([])
    expect(with3('2026-03-03')).toEqual(['review-missing'])
  })

  it('is none after a withdrawal of an earlier day, and still one after that of the same day', () => {
    const withdrawn = (day: string) =>
      broken({ sheets: [failed('a', '2026-02-28')], withdrawals: new Map([['sword', [day]]]) })
    expect(withdrawn('2026-03-01')).toEqual([])
    expect(withdrawn('2026-03-02')).toEqual(['too-early'])
  })
})

describe('a sequence', () => {
  const certifications = [{ ...SWORD, terms: [{ ...TERMS, sequence: 'in-order' as const }] }]
  const marching = (sheets: AssessedSheet[], catalogue: Partial<JudgingCatalogue> = {}) =>
    broken({ sheets }, { standard: 'marching' }, { certifications, ...catalogue })

  it('wants the standards before it kept on the day', () => {
    expect(marching([])).toEqual(['out-of-sequence'])
    expect(marching([givenSheet('a', '2026-03-01')])).toEqual([])
    expect(marching([givenSheet('a', '2026-03-02', { hour: 8 })])).toEqual([])
    expect(marching([givenSheet('a', '2026-03-02', { hour: 16 })])).toEqual(['out-of-sequence'])
    // 2 December 2025 and 90 days is 2 March 2026.
    expect(marching([givenSheet('a', '2025-12-02')])).toEqual([])
    expect(marching([givenSheet('a', '2025-12-01')])).toEqual(['out-of-sequence'])
    const ended = { breaks: [{ standard: 'standing', version: 2, effectiveFrom: '2026-03-02' }] }
    expect(marching([givenSheet('a', '2026-03-01')], ended)).toEqual(['out-of-sequence'])
  })

  it('begins anew after an award', () => {
    const sheets = [givenSheet('a', '2026-02-01'), givenSheet('b', '2026-02-02', { standard: 'marching' })]
    expect(marching(sheets)).toEqual(['out-of-sequence'])
  })

  it('does not bind its first standard, and is that of the day of the sheet', () => {
    expect(broken({}, {}, { certifications })).toEqual([])
    const terms = [TERMS, { ...TERMS, effectiveFrom: '2026-03-03', sequence: 'in-order' as const }]
    expect(marching([], { certifications: [{ ...SWORD, terms }] })).toEqual([])
  })
})

describe('a version of the standard', () => {
  const versions = (nextFrom: string, published: boolean): JudgingCatalogue['versions'] => [
    ...givenCatalogue().versions,
    { standard: 'standing', version: 2, arms: [], published, effectiveFrom: nextFrom },
    { standard: 'marching', version: 7, arms: [], published: true, effectiveFrom: '2026-02-01' },
  ]

  it('is in force until the next of several', () => {
    const third = { standard: 'standing', version: 3, arms: [], published: true, effectiveFrom: '2026-04-01' }
    const of = (nextFrom: string) => ({ versions: [...versions(nextFrom, true), third] })
    expect(broken({}, {}, of('2026-03-02'))).toEqual(['standard-not-in-force'])
    expect(broken({}, { version: 2 }, of('2026-03-02'))).toEqual([])
    expect(broken({}, { version: 3 }, of('2026-03-02'))).toEqual(['standard-not-in-force'])
  })

  it('is in force until the next published one of its standard', () => {
    expect(broken({}, {}, { versions: versions('2026-03-03', true) })).toEqual([])
    expect(broken({}, {}, { versions: versions('2026-03-02', true) })).toEqual(['standard-not-in-force'])
    expect(broken({}, {}, { versions: versions('2026-03-02', false) })).toEqual([])
    expect(broken({}, { version: 2 }, { versions: versions('2026-03-02', true) })).toEqual([])
    expect(broken({}, { version: 2 }, { versions: versions('2026-03-03', true) })).toEqual(['standard-not-in-force'])
    expect(broken({}, { version: 2 }, { versions: versions('2026-03-02', false) })).toEqual(['standard-not-in-force'])
  })
})

describe('the arms of the candidate', () => {
  it('are those of the day', () => {
    const periods = [
      { from: '2020-01-01', through: '2026-03-01', unitId: 'first-platoon', arms: ['rifle'] },
      { from: '2026-03-02', through: '2026-03-02', unitId: 'first-platoon', arms: ['rifle', 'sword'] },
      { from: '2026-03-03', through: null, unitId: 'first-platoon', arms: ['rifle', 'saber'] },
    ]
    expect(broken({ periods })).toEqual([])
    expect(broken({ periods }, { arm: 'saber' })).toEqual(['arm-not-allowed'])
    expect(broken({ periods: [] })).toEqual(['arm-not-allowed'])
  })
})
