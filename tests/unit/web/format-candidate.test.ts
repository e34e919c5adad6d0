import { describe, expect, it } from 'vitest'
import { attemptRows, entersStatus } from '../../../web/features/coaching/attempt-rows.ts'
import { formatCandidate, formatRetestDates, formatWeakSpots } from '../../../web/features/coaching/format-candidate.ts'
import { formatOwnStanding } from '../../../web/features/coaching/format-own-standing.ts'
import { gaugeLines } from '../../../web/features/coaching/gauge-lines.ts'
import { standardsTaken } from '../../../web/features/coaching/standards-taken.ts'
import { standingLines } from '../../../web/features/coaching/standing-lines.ts'
import { faultsNoted, weakMeasures } from '../../../web/features/coaching/weak-spots.ts'
import { body, id, result, retest, sheet, standing, status } from './given.ts'

const TODAY = '2026-11-25'
const titles = { certification: (code: string) => `the ${code}`, standard: (code: string) => `the ${code}` }
const minor = (
  code: string,
  outcome: 'GO' | 'NO-GO' | 'not tested',
  faults: { trial: number; code: string }[] = [],
) => ({
  code,
  outcome,
  correct: 0,
  incorrect: 0,
  faults,
})

describe('what a soldier reads first', () => {
  const about = (code: string) => `with the ${code}`
  const say = (statuses: ReturnType<typeof status>[], ahead: Parameters<typeof formatOwnStanding>[0]['ahead'] = []) =>
    formatOwnStanding({ statuses, ahead, about, standardTitle: titles.standard, today: TODAY })
  const rifle = status({ certification: 'rifle', validThrough: '2027-10-20' })

  it('says with what one may stand until when, with what not, and what to do', () => {
    expect(say([rifle, status({ status: 'lapsed', validThrough: '2026-05-02' })])).toBe(
      'You may stand with the rifle until 20 October 2027; not with the sword since 2 May: ask for a test day.',
    )
    expect(say([status({ status: 'no test yet' })])).toBe('You may not stand with the sword yet: ask for a test day.')
    expect(say([])).toBe('No certification is for what you carry today.')
  })
  it('names the retest and what is still to come', () => {
    const due = status({ status: 'retest due', retestOpen: [standing.code] })
    const ahead = { certification: 'sword', standard: standing.code, retest: retest(), booking: null }
    expect(say([rifle, due], [ahead])).toBe(
      'You may stand with the rifle until 20 October 2027; not with the sword: your retest is due by Thursday 17 December: ask for a test day.',
    )
    expect(say([status({ status: 'part way' })], [{ ...ahead, standard: 'marching', retest: null }])).toBe(
      'You may not stand with the sword yet: the marching is still to come: ask for a test day.',
    )
  })
  it('says that a suspension forbids it', () => {
    expect(say([rifle, status({ status: 'suspended', suspended: true })])).toBe(
      'You may stand with the rifle until 20 October 2027; not with the sword while you are suspended.',
    )
  })
})

describe('the answer on a candidate', () => {
  const say = (statuses: ReturnType<typeof status>[], sheets = [sheet()]) =>
    formatCandidate({ name: 'CPL Amadi', statuses, sheets, titles, today: TODAY })
  const due = status({ status: 'retest due', retestOpen: [standing.code] })

  it('says how short the last test was', () => {
    expect(say([due])).toBe('CPL Amadi was one measure short on Tuesday 17 November in the sword-saber-standing.')
    expect(say([due], [sheet({ result: result({ go: 8 }), day: TODAY })])).toBe(
      'CPL Amadi was three measures short today in the sword-saber-standing.',
    )
  })
  it('says that a major measure stopped it', () => {
    expect(say([due], [sheet({ result: result({ ending: 'stopped' }) })])).toBe(
      'CPL Amadi was stopped on Tuesday 17 November in the sword-saber-standing: a major measure was NO-GO.',
    )
  })
  it('looks past sheets that count for nothing', () => {
    const held = sheet({ state: 'held', day: '2026-11-20', result: result({ outcome: 'GO', go: 12 }) })
    expect(say([due], [held, sheet()])).toBe(
      'CPL Amadi was one measure short on Tuesday 17 November in the sword-saber-standing.',
    )
  })
  it('puts a suspension first, and a retest before a certification in force', () => {
    expect(say([status({ certification: 'rifle', suspended: true }), due])).toBe('CPL Amadi is suspended in the rifle.')
    expect(say([status({ certification: 'rifle', validThrough: '2027-06-02' }), due])).toMatch(/one measure short/)
  })
  it('says what is in, what lapsed, what never was', () => {
    const toward = [{ standard: 'standing', on: '2026-10-20', countsUntil: '2027-01-18' }]
    expect(say([status({ status: 'part way', toward })])).toBe(
      'CPL Amadi is part way to the sword: the standing is in.',
    )
    expect(say([status({ status: 'lapsed', validThrough: '2026-10-30' })])).toBe(
      'CPL Amadi’s certification in the sword lapsed after Friday 30 October.',
    )
    expect(say([status({ status: 'no test yet' })])).toBe('CPL Amadi has no test yet.')
    expect(say([])).toBe('No certification fits CPL Amadi today.')
  })
  it('says until when it counts, and what lapses first', () => {
    const sword = status({ validThrough: '2027-06-02' })
    const rifle = status({ certification: 'rifle', validThrough: '2027-03-14' })
    expect(say([sword])).toBe('CPL Amadi is certified in the sword through 2 June 2027.')
    expect(say([sword, rifle])).toBe(
      'CPL Amadi is certified in the sword and the rifle; the rifle lapses first, after 14 March 2027.',
    )
  })
})

describe('the dates of a retest', () => {
  it('tell from when, by when, and what comes first', () => {
    expect(formatRetestDates(retest({ earliest: '2026-11-28' }), 'Draw', TODAY)).toBe(
      'The retest in Draw can be taken from Sat 28 Nov and is due by 17 Dec.',
    )
    expect(formatRetestDates(retest(), 'Draw', TODAY)).toBe(
      'The retest in Draw can be taken any day and is due by 17 Dec.',
    )
    expect(
      formatRetestDates(retest({ due: '2026-11-20', pastDue: true, needsReview: true, noGosInARow: 3 }), 'Draw', TODAY),
    ).toBe('The retest in Draw was due by Fri 20 Nov and is past due. A review comes first: 3 NO-GOs in a row.')
  })
})

describe('weak spots', () => {
  const tests = [
    sheet({
      result: result({
        minors: [
          minor('draw', 'NO-GO', [
            { trial: 1, code: 'elbow-bent' },
            { trial: 2, code: 'elbow-bent' },
          ]),
          minor('return', 'GO'),
        ],
      }),
    }),
    sheet({
      result: result({
        minors: [minor('draw', 'NO-GO', [{ trial: 1, code: 'head-moved' }]), minor('return', 'not tested')],
      }),
    }),
    sheet({ state: 'rejected', result: result({ minors: [minor('return', 'NO-GO')] }) }),
    sheet({ body: body({ purpose: 'practice' }), result: result({ minors: [minor('return', 'NO-GO')] }) }),
    sheet({ body: body({ secondOf: id(1) }), result: result({ minors: [minor('return', 'NO-GO')] }) }),
    sheet({ result: result({ ending: 'void', outcome: 'VOID', minors: [minor('return', 'NO-GO')] }) }),
  ]
  const titleOf = { measure: (code: string) => code, fault: (_: string, code: string) => code }
  it('count only the tests that count, and not what was not tested', () => {
    expect(weakMeasures(tests)).toEqual([{ measure: 'draw', tested: 2, noGo: 2 }])
    expect(faultsNoted(tests)).toEqual([
      { measure: 'draw', fault: 'elbow-bent', times: 2 },
      { measure: 'draw', fault: 'head-moved', times: 1 },
    ])
    expect(tests.map(entersStatus)).toEqual([true, true, false, false, false, false])
  })
  it('are said with the fault noted most', () => {
    expect(formatWeakSpots(2, weakMeasures(tests), faultsNoted(tests), titleOf)).toBe(
      'Draw was NO-GO twice in two tests. Noted most: elbow-bent, on two trials.',
    )
    expect(formatWeakSpots(1, [], [], titleOf)).toBe('In one test no measure was NO-GO.')
    expect(formatWeakSpots(0, [], [], titleOf)).toBe('')
  })
  it('name two measures that fail alike', () => {
    const weak = [
      { measure: 'draw', tested: 4, noGo: 3 },
      { measure: 'return', tested: 4, noGo: 3 },
    ]
    expect(formatWeakSpots(4, weak, [], titleOf)).toBe('Draw and return were NO-GO three times in four tests.')
  })
})

describe('the rows of attempts', () => {
  it('tell what sets a sheet apart', () => {
    const notes = (part: Parameters<typeof sheet>[0]) => attemptRows([sheet(part)], [standing], [])[0]?.notes
    expect(notes({})).toEqual(['attempt 2'])
    expect(notes({ state: 'held' })).toEqual(['held, counts for nothing yet'])
    expect(notes({ body: body({ purpose: 'practice' }) })).toEqual(['practice'])
    expect(notes({ flags: ['overlap'], revision: 3 })).toEqual(['attempt 2', 'flagged: overlap', 'amended 2 times'])
  })
  it('keep a column for a measure the sheet does not have', () => {
    const [row] = attemptRows([sheet()], [standing], [{ code: 'draw' }])
    expect(row?.cells).toEqual([null])
    expect(row?.score).toBe('10 of 0')
  })
  it('say where a stopped test fell', () => {
    const majors = [{ code: 'composure', mark: 'NO-GO' as const, atCall: 22, faults: [], note: null }]
    const [row] = attemptRows(
      [sheet({ body: body({ majors }), result: result({ ending: 'stopped' }) })],
      [standing],
      [],
    )
    expect([row?.outcome, row?.score, row?.good]).toEqual([
      'NO-GO, stopped',
      'Ceremonial composure, after call 22',
      false,
    ])
  })
})

describe('readings by gauge', () => {
  it('count what lies outside the closed band', () => {
    const reading = (trial: number, value: string, override: string | null = null) => ({
      trial,
      gauge: 'tip-height',
      value,
      override,
    })
    const minors = [
      {
        code: 'parade-rest',
        trials: [],
        faults: [],
        readings: [reading(1, '3.99'), reading(2, '6.0'), reading(3, '6.01', 'uneven')],
      },
    ]
    const [gauge] = gaugeLines([sheet({ body: body({ minors }) })], [standing], standing)
    expect(gauge).toMatchObject({ code: 'tip-height', low: 1, high: 1, all: 3 })
    expect(gauge?.lines[0]?.readings.map(({ inside, overridden }) => [inside, overridden])).toEqual([
      [false, false],
      [true, false],
      [false, true],
    ])
  })
})

describe('the standards of a candidate', () => {
  it('begin with the open retest', () => {
    const sheets = [sheet({ body: body({ standard: 'rifle' }) }), sheet()]
    expect(standardsTaken(sheets, [])).toEqual(['rifle', standing.code])
    expect(standardsTaken(sheets, [retest()])).toEqual([standing.code, 'rifle'])
  })
})

describe('what is in, open and missing', () => {
  const terms = {
    id: id(1),
    code: 'sword',
    title: 'Sword',
    standards: ['standing', 'marching'],
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
    effectiveFrom: '2023-01-01',
  }
  const lines = (
    part: Parameters<typeof status>[0],
    retests: ReturnType<typeof retest>[] = [],
    ahead: Parameters<typeof standingLines>[3] = [],
  ) => standingLines(status(part), terms, retests, ahead, (code) => code, TODAY)
  it('is a line a standard', () => {
    const toward = [{ standard: 'standing', on: '2026-10-20', countsUntil: '2027-01-18' }]
    expect(lines({ status: 'part way', toward })).toEqual([
      'standing: GO on 20 Oct, counts until 18 Jan 2027',
      'marching: missing',
    ])
    expect(
      lines({ status: 'retest due', retestOpen: ['marching'] }, [retest({ standard: 'marching', noGosInARow: 2 })]),
    ).toEqual(['standing: missing', 'marching: retest open now, due by 17 Dec, attempt 2, 2 NO-GOs in a row'])
  })
  it('says what is booked', () => {
    const booking = (on: string) => ({ on }) as NonNullable<Parameters<typeof standingLines>[3][number]['booking']>
    const ahead = [
      { standard: 'standing', booking: booking('2026-12-01') },
      { standard: 'marching', booking: booking('2026-12-02') },
    ]
    expect(
      lines({ status: 'retest due', retestOpen: ['marching'] }, [retest({ standard: 'marching' })], ahead),
    ).toEqual([
      'standing: missing, booked for Tue 1 Dec',
      expect.stringMatching(/^marching: retest open now, .*, booked for Wed 2 Dec$/),
    ])
  })
  it('misses nothing while the certification is in force', () => {
    expect(lines({ status: 'certified' })).toEqual([])
    expect(lines({ status: 'certified', retestOpen: ['marching'] })).toEqual(['marching: retest open'])
  })
})
