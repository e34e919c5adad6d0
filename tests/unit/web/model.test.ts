import { describe, expect, it } from 'vitest'
import type { Violation } from '../../../server/contract/sheets/sheets.ts'
import { failingOrder } from '../../../web/domain/findings/failing-order.ts'
import { formatMajorsFailed, formatOutcome, formatScore } from '../../../web/domain/sheets/format-outcome.ts'
import { formatViolation } from '../../../web/domain/sheets/format-rule.ts'
import { scoredStandard } from '../../../web/domain/sheets/scored-standard.ts'
import { distinctNames, familyName, listName, shortName } from '../../../web/domain/soldiers/format-person.ts'
import { fullUnitName, timeZoneOf, unitsInOrder } from '../../../web/domain/soldiers/unit-tree.ts'
import { formatBand } from '../../../web/domain/standards/format-band.ts'
import {
  certificationsOn,
  faultTitle,
  measureTitle,
  newestStandards,
  standardTitle,
} from '../../../web/domain/standards/titles.ts'
import { emptyTally, tallyRequired, totalOf } from '../../../web/parts/readiness/tally-status.ts'
import { measureMarks, versionOf } from '../../../web/parts/sheets/measure-marks.ts'
import { body, id, result, standing, unit } from './given.ts'

describe('the tree of units', () => {
  const units = [
    unit(4, '10th Platoon', 2),
    unit(1, 'Battalion', null, 'America/New_York'),
    unit(3, '2nd Platoon', 2),
    unit(2, 'A Company', 1),
  ]
  it('is a list from the top, sisters by name as people count', () => {
    expect(unitsInOrder(units).map(({ unit, depth }) => [unit.name, depth])).toEqual([
      ['Battalion', 0],
      ['A Company', 1],
      ['2nd Platoon', 2],
      ['10th Platoon', 2],
    ])
  })
  it('begins at what one may see, where the top is out of sight', () => {
    const visible = units.filter(({ name }) => name !== 'Battalion')
    expect(unitsInOrder(visible).map(({ unit }) => unit.name)).toEqual(['A Company', '2nd Platoon', '10th Platoon'])
  })
  it('names a unit short of the top', () => {
    expect(fullUnitName(units, id(3))).toBe('2nd Platoon, A Company')
    expect(fullUnitName(units, id(1))).toBe('Battalion')
    expect(fullUnitName(units, null)).toBe('')
  })
  it('gives the time zone of a unit, and of the top', () => {
    const abroad = [...units, unit(5, 'Detachment', 1, 'Europe/Berlin')]
    expect(timeZoneOf(abroad, id(5))).toBe('Europe/Berlin')
    expect(timeZoneOf(abroad)).toBe('America/New_York')
    expect(timeZoneOf(abroad, id(77))).toBeNull()
    expect(timeZoneOf([])).toBeNull()
  })
})

describe('counts of status', () => {
  it('are of those required', () => {
    const count = { unitId: id(1), certification: 'sword', status: 'lapsed' as const, count: 2 }
    const tally = tallyRequired([
      { ...count, required: true },
      { ...count, required: true, count: 3 },
      { ...count, required: false },
    ])
    expect(tally).toEqual({ ...emptyTally(), lapsed: 5 })
    expect(totalOf(tally)).toBe(5)
  })
})

describe('titles', () => {
  const older = { ...standing, id: id(901), version: 1, title: 'Old title' }
  const newer = { ...standing, id: id(902), version: 2, minors: standing.minors.filter(({ code }) => code !== 'draw') }
  it('come from the newest version that has the measure', () => {
    expect(standardTitle([older, newer], standing.code)).toBe(standing.title)
    expect(measureTitle([older, newer], standing.code, 'draw')).toBe('Draw')
    expect(faultTitle([older, newer], standing.code, 'draw', 'elbow-bent')).toBe('Elbow bent on the way to the carry')
    expect(newestStandards([older, newer]).map(({ version }) => version)).toEqual([2])
  })
  it('fall back to the code', () => {
    expect(standardTitle([], 'rifle')).toBe('rifle')
    expect(measureTitle([standing], standing.code, 'port')).toBe('port')
    expect(faultTitle([standing], standing.code, 'draw', 'late')).toBe('late')
  })
  it('of certifications follow the terms of the day', () => {
    const terms = (number: number, title: string, effectiveFrom: string) => ({
      id: id(number),
      code: 'sword',
      title,
      standards: [standing.code],
      arms: [],
      sequence: 'any' as const,
      windowDays: 90,
      validityMonths: 12,
      waitDays: 7,
      dueDays: 30,
      reviewAfter: 3,
      approval: 'none' as const,
      extensionDays: 0,
      requiredOf: null,
      effectiveFrom,
    })
    const all = [terms(2, 'New terms', '2027-01-01'), terms(1, 'Old terms', '2024-01-01')]
    expect(certificationsOn(all, '2026-12-31').map(({ title }) => title)).toEqual(['Old terms'])
    expect(certificationsOn(all, '2027-01-01').map(({ title }) => title)).toEqual(['New terms'])
    expect(certificationsOn(all, '2023-01-01').map(({ title }) => title)).toEqual(['Old terms'])
  })
})

describe('the marks of a sheet', () => {
  it('are what counts after the readings, in the order of the standard', () => {
    const marked = body({
      minors: [
        {
          code: 'parade-rest',
          trials: ['correct', 'correct'],
          faults: [],
          readings: [
            { trial: 1, gauge: 'tip-height', value: '6.01', override: null },
            { trial: 2, gauge: 'tip-height', value: '7', override: 'ground uneven' },
          ],
        },
      ],
    })
    const minors = [
      { code: 'parade-rest', outcome: null, correct: 1, incorrect: 1, faults: [{ trial: 1, code: 'tip-high' }] },
    ]
    const [measure] = measureMarks(standing, marked, { minors })
    expect(measure?.marks).toEqual(['incorrect', 'correct'])
    expect(measure?.title).toBe('Parade rest')
  })
  it('belong to the version of the sheet', () => {
    expect(versionOf([standing], body())?.id).toBe(standing.id)
    expect(versionOf([standing], body({ standardVersion: 9 }))).toBeUndefined()
  })
})

describe('how a sheet came out', () => {
  it('is said in a few words', () => {
    expect(formatOutcome(body(), result())).toBe('NO-GO')
    expect(formatOutcome(body(), result({ ending: 'stopped' }))).toBe('NO-GO, stopped')
    expect(
      formatOutcome(body({ void: { kind: 'weather', text: '' } }), result({ ending: 'void', outcome: 'VOID' })),
    ).toBe('Void: weather')
    expect(formatOutcome(body(), result({ ending: 'recorded', outcome: 'GO' }))).toBe('GO, outcome only')
  })
  it('names the major measures that fell', () => {
    const major = { code: 'composure', mark: 'NO-GO' as const, atCall: 22, faults: [], note: null }
    expect(formatMajorsFailed(body({ majors: [major] }), standing)).toEqual(['Ceremonial composure, after call 22'])
    expect(formatMajorsFailed(body({ majors: [{ ...major, atCall: 0 }] }), standing)).toEqual([
      'Ceremonial composure, before the first call',
    ])
  })
  it('has a score unless only the outcome is on record', () => {
    const minors = standing.minors.map(({ code }) => ({
      code,
      outcome: 'GO' as const,
      correct: 3,
      incorrect: 0,
      faults: [],
    }))
    expect(formatScore(result({ minors }))).toBe('10 of 13 GO, 11 needed')
    expect(formatScore(result({ minimum: null }))).toBe('')
  })
})

describe('the order of failing measures', () => {
  it('goes by share, few tests last', () => {
    const measures = [
      { measure: 'few', tested: 4, noGo: 4 },
      { measure: 'some', tested: 100, noGo: 10 },
      { measure: 'most', tested: 20, noGo: 5 },
      { measure: 'never', tested: 50, noGo: 0 },
    ]
    expect(failingOrder(measures).map(({ measure }) => measure)).toEqual(['most', 'some', 'never', 'few'])
  })
})

describe('a condition that was not met', () => {
  it('is told once, in the words of the server, with days as people say them', () => {
    const say = (detail: string) => formatViolation({ rule: 'no-sponsor', detail }, '2026-11-25', String)
    expect(say('No sponsor is named.')).toBe('No sponsor is named.')
    expect(say('Open from 2026-10-29 to 2026-11-28.')).toBe('Open from 29 Oct to Sat 28 Nov.')
  })

  it('names certifications and standards by their titles, and nothing else', () => {
    const titles: Record<string, string> = { sword: 'Sword', 'sword-standing': 'Standing manual', march: 'Marching' }
    const say = (rule: Violation['rule'], detail: string) =>
      formatViolation({ rule, detail }, '2026-11-25', (code) => titles[code] ?? code)
    const early = say('too-early', 'The retest for sword was allowed from 2026-11-28 on.')
    expect(early).toBe('The retest for Sword was allowed from Sat 28 Nov on.')
    const first = say('out-of-sequence', 'For sword these come first: sword-standing, march.')
    expect(first).toBe('For Sword these come first: Standing manual, Marching.')
    expect(say('review-missing', 'A review is due before the next retest for sword; none is recorded.')).toContain(
      'for Sword; none',
    )
    const arm = 'The standard is not tested with the sword.'
    expect(say('arm-not-allowed', arm)).toBe(arm)
  })
})

describe('small words', () => {
  it('names', () => {
    const soldier = { grade: 'SGT', familyName: 'Ashdown', givenName: 'Mirela' }
    expect([listName(soldier), shortName(soldier), familyName('Ashdown, Mirela')]).toEqual([
      'SGT Ashdown, Mirela',
      'SGT Ashdown',
      'Ashdown',
    ])
  })
  it('bands', () => {
    expect(formatBand({ min: '4', max: '6', unit: 'in' })).toBe('4 to 6 in')
    expect(formatBand({ min: '4', max: null, unit: 'in' })).toBe('at least 4 in')
    expect(formatBand({ min: null, max: '6', unit: 'in' })).toBe('at most 6 in')
    expect(formatBand({ unit: 'in' })).toBe('in')
  })
})

describe('a standard without an order of calls', () => {
  it('calls each measure its trials running', () => {
    const { calls, rule } = scoredStandard({ ...standing, calls: [], rule: { ...standing.rule, percent: 80 } })
    expect(calls.slice(0, 4)).toEqual([
      { measure: 'draw', trial: 1 },
      { measure: 'draw', trial: 2 },
      { measure: 'draw', trial: 3 },
      { measure: 'return', trial: 1 },
    ])
    expect(calls).toHaveLength(39)
    expect(rule.percent).toBe('80')
  })
})

describe('short names of a group', () => {
  const one = (number: number, grade: string, name: string) => ({
    id: id(number),
    rosterNumber: `10${number}`,
    grade,
    name,
  })
  const names = (...people: ReturnType<typeof one>[]) => [...distinctNames(people).values()]
  it('are grade and family name, and more where two would read alike', () => {
    expect(
      names(one(1, 'SGT', 'Ashdown, Mirela'), one(2, 'SSG', 'Ashdown, Mirela'), one(3, 'CPL', 'Amadi, Rafe')),
    ).toEqual(['SGT Ashdown', 'SSG Ashdown', 'CPL Amadi'])
    expect(
      names(one(1, 'SGT', 'Ashdown, Mirela'), one(2, 'SGT', 'Ashdown, Odo'), one(3, 'CPL', 'Amadi, Rafe')),
    ).toEqual(['SGT Ashdown, Mirela', 'SGT Ashdown, Odo', 'CPL Amadi'])
    expect(names(one(1, 'SGT', 'Ashdown, Odo'), one(2, 'SGT', 'Ashdown, Odo'))).toEqual([
      'SGT Ashdown, Odo, 101',
      'SGT Ashdown, Odo, 102',
    ])
  })
  it('somebody named twice is not two people', () => {
    expect(names(one(1, 'SGT', 'Ashdown, Odo'), one(1, 'SGT', 'Ashdown, Odo'))).toEqual(['SGT Ashdown'])
  })
})
