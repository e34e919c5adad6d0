import { describe, expect, it } from 'vitest'
import { zonedInstant } from '../../../server/domain/calendar/zoned-instant.ts'
import {
  formatScoreSoFar,
  formatStored,
  formatUnfinished,
  formatWhyHeld,
} from '../../../web/domain/sheets/format-score.ts'
import { assessDraft } from '../../../web/features/sheets/enter/assess-draft.ts'
import { faultsAt } from '../../../web/features/sheets/enter/cells.ts'
import { armFor, chooseArm } from '../../../web/features/sheets/enter/choose-arm.ts'
import { defaultStandardId, enterable } from '../../../web/features/sheets/enter/default-standard.ts'
import { type Draft, hasContent, newDraft } from '../../../web/features/sheets/enter/draft.ts'
import { readFaultNumbers, toFaultNumbers } from '../../../web/features/sheets/enter/fault-numbers.ts'
import { firstGradings } from '../../../web/features/sheets/enter/first-gradings.ts'
import { formatNoted } from '../../../web/features/sheets/enter/format-noted.ts'
import { fromBody } from '../../../web/features/sheets/enter/from-body.ts'
import { inTitles } from '../../../web/features/sheets/enter/in-titles.ts'
import { mark, setAtCall, setFaults, setReading, toggleFault } from '../../../web/features/sheets/enter/mark-draft.ts'
import { onlyMatch } from '../../../web/features/sheets/enter/only-match.ts'
import { parseClock } from '../../../web/features/sheets/enter/parse-clock.ts'
import { placeProblems } from '../../../web/features/sheets/enter/place-problems.ts'
import { sponsorOfRecord } from '../../../web/features/sheets/enter/sponsor-of-record.ts'
import { missingInHead, toBody } from '../../../web/features/sheets/enter/to-body.ts'
import { body, id, result, sheet, standing } from './given.ts'

const NOTHING = { head: {}, cells: {}, other: [] }
const person = (number: number) => ({ id: id(number), text: 'SGT Ashdown, Mirela' })

const filled = (part: Partial<Draft> = {}): Draft => ({
  ...newDraft(id(1), {
    standardId: standing.id,
    grader: person(3),
    day: '2026-11-17',
    arm: 'sword',
  }),
  sponsor: person(2),
  candidate: person(4),
  start: '0900',
  finish: '9:31',
  ...part,
})

const draw = (trial: number) => ({ code: 'draw', trial })

describe('clock times as people type them', () => {
  it.each([
    ['0931', '09:31'],
    ['931', '09:31'],
    ['9:31', '09:31'],
    [' 9.31 ', '09:31'],
    ['23:59', '23:59'],
    ['0000', '00:00'],
  ])('%s is %s', (typed, clock) => expect(parseClock(typed)).toBe(clock))
  it.each(['', '9', '2400', '0960', '9:3', 'noon', '12345'])('%s is none', (typed) =>
    expect(parseClock(typed)).toBeNull(),
  )
})

describe('one attempt that two graders graded on paper', () => {
  const first = (part: object = {}) =>
    sheet({ id: id(7), day: '2026-11-17', body: { ...body({ candidateId: id(4), graderId: id(9) }), ...part } })
  it('can name the first one’s sheet: same candidate, standard and day, another grader', () => {
    expect(firstGradings([first()], filled(), standing.code).map((one) => one.id)).toEqual([id(7)])
    const others = [
      first({ graderId: id(3) }),
      first({ candidateId: id(5) }),
      first({ secondOf: id(8) }),
      first({ void: { kind: 'weather', text: '' } }),
      { ...first(), day: '2026-11-18' },
      { ...first(), state: 'rejected' as const },
    ]
    expect(firstGradings(others, filled(), standing.code)).toEqual([])
  })
  it('says so on the sheet, and not on one of its own', () => {
    expect(toBody(filled({ secondOf: id(7) }), standing, 'UTC').secondOf).toBe(id(7))
    expect(toBody(filled(), standing, 'UTC').secondOf).toBeNull()
  })
})

describe('instants in the zone of the unit', () => {
  // United States, Energy Policy Act of 2005, section 110: summer time from the second Sunday in March (2026: the 8th)
  // to the first in November (the 1st), both at 02:00.
  it.each([
    ['2026-03-02', '09:00', '2026-03-02T09:00:00-05:00'],
    ['2026-03-08', '01:59', '2026-03-08T01:59:00-05:00'],
    ['2026-03-08', '03:00', '2026-03-08T03:00:00-04:00'],
    ['2026-07-01', '09:00', '2026-07-01T09:00:00-04:00'],
    ['2026-11-01', '01:30', '2026-11-01T01:30:00-04:00'],
    ['2026-11-02', '09:00', '2026-11-02T09:00:00-05:00'],
  ])('%s %s', (day, clock, instant) => expect(zonedInstant(day, clock, 'America/New_York')).toBe(instant))
  it('a clock time that the change leaves out moves on an hour', () => {
    expect(zonedInstant('2026-03-08', '02:30', 'America/New_York')).toBe('2026-03-08T03:30:00-04:00')
  })
})

describe('the head of a sheet', () => {
  it('is complete or says what is missing', () => {
    expect(missingInHead(filled(), standing)).toEqual({})
    const empty = newDraft(id(1), { standardId: '', grader: null, day: '', arm: '' })
    expect(Object.keys(missingInHead(empty, standing)).sort()).toEqual([
      'arm',
      'candidate',
      'day',
      'finish',
      'grader',
      'start',
    ])
    expect(missingInHead(empty, undefined).standard).toMatch(/Choose the standard/)
  })
  it('has no sponsor on some papers, which is for the rules to judge', () => {
    expect(missingInHead(filled({ sponsor: null }), standing)).toEqual({})
  })
  it('finishes after it starts', () => {
    expect(missingInHead(filled({ finish: '0859' }), standing)).toHaveProperty('finish')
    expect(missingInHead(filled({ finish: '0900' }), standing)).toEqual({})
  })
  it('says why a test is void for another reason, and why a sheet is amended', () => {
    expect(missingInHead(filled({ holds: 'void', voidKind: 'other' }), standing)).toHaveProperty('void')
    expect(missingInHead(filled({ holds: 'void', voidKind: 'weather' }), standing)).toEqual({})
    expect(missingInHead(filled({ amends: { body: body(), reason: ' ' } }), standing)).toHaveProperty('reason')
  })
})

describe('the body that is sent', () => {
  it('has the marks in the order of the standard and times with the offset of the zone', () => {
    const sent = toBody(mark(filled(), draw(1), 'correct'), standing, 'America/New_York')
    expect(sent).toMatchObject({
      candidateId: id(4),
      sponsorId: id(2),
      graderId: id(3),
      startedAt: '2026-11-17T09:00:00-05:00',
      finishedAt: '2026-11-17T09:31:00-05:00',
      void: null,
      outcomeOnly: null,
    })
    expect(sent.minors.map(({ code }) => code)).toEqual(standing.minors.map(({ code }) => code))
    expect(sent.minors[0]).toEqual({ code: 'draw', trials: ['correct'], faults: [], readings: [] })
  })
  it('of an outcome alone has no marks', () => {
    expect(toBody(mark(filled({ holds: 'GO' }), draw(1), 'correct'), standing, 'UTC')).toMatchObject({
      outcomeOnly: 'GO',
      majors: [],
      minors: [],
    })
  })
  it('of an amendment keeps what the form does not show, and the seconds of times not changed', () => {
    const stored = body({
      startedAt: '2026-11-17T09:00:42-05:00',
      finishedAt: '2026-11-17T09:31:07-05:00',
      pauses: [{ from: '2026-11-17T09:10:00-05:00', to: null, note: 'rain' }],
      testDayId: id(5),
      majors: [{ code: 'uniform', mark: 'GO', faults: [], note: 'brass dull' }],
    })
    const opened = fromBody(id(8), stored, standing.id, 'America/New_York', () => 'SGT Ashdown, Mirela')
    const again = toBody({ ...opened, finish: '0932' }, standing, 'America/New_York')
    expect(again).toMatchObject({
      startedAt: stored.startedAt,
      finishedAt: '2026-11-17T09:32:00-05:00',
      pauses: stored.pauses,
      testDayId: id(5),
    })
    expect(again.majors[0]?.note).toBe('brass dull')
    expect(opened.amends?.body).toEqual(stored)
  })
})

describe('marks taken back', () => {
  it('take faults and readings of the trial with them, and no others', () => {
    let draft = mark(mark(filled(), draw(1), 'incorrect'), draw(2), 'incorrect')
    draft = toggleFault(toggleFault(draft, draw(1), 'elbow-bent'), draw(2), 'head-moved')
    draft = setReading(setReading(draft, draw(1), 'draw-up', '52', null), draw(2), 'draw-up', '44', null)
    expect(mark(draft, draw(2), null).minors.draw).toEqual({
      trials: ['incorrect'],
      faults: [{ trial: 1, code: 'elbow-bent' }],
      readings: [{ trial: 1, gauge: 'draw-up', value: '52', override: null }],
    })
  })
  it('an emptied reading is none', () => {
    const draft = setReading(mark(filled(), draw(1), 'correct'), draw(1), 'draw-up', '52', null)
    expect(setReading(draft, draw(1), 'draw-up', '', null).minors.draw?.readings).toEqual([])
  })
  it('a major that turns GO forgets its call', () => {
    const fell = setAtCall(mark(filled(), { code: 'uniform', trial: 0 }, 'incorrect'), 'uniform', '4')
    expect(mark(fell, { code: 'uniform', trial: 0 }, 'correct').majors.uniform).toMatchObject({
      mark: 'GO',
      atCall: '',
    })
  })
})

describe('a sheet as it stands', () => {
  const all = (draft: Draft): Draft =>
    [
      ...standing.majors.map(({ code }) => ({ code, trial: 0 })),
      ...standing.minors.flatMap(({ code }) => [1, 2, 3].map((trial) => ({ code, trial }))),
    ].reduce((sheet, cell) => mark(sheet, cell, 'correct'), draft)

  it('can be sent when every mark is there', () => {
    const { score, blocking } = assessDraft(all(filled()), standing, true, NOTHING)
    expect([score.ending, score.outcome, blocking]).toEqual(['completed', 'GO', []])
    expect(formatScoreSoFar(score)).toBe('GO: 13 of 13, 11 needed.')
  })
  it('goes to the first open place otherwise', () => {
    const { score, blocking, wrong } = assessDraft(filled(), standing, true, NOTHING)
    expect(blocking[0]).toEqual({ code: 'uniform', trial: 0 })
    expect(wrong).toEqual({})
    expect(formatScoreSoFar(score)).toBe('Needs 11 more.')
  })
  it('points at a blank between marks, with the measure by its title', () => {
    const { wrong, blocking } = assessDraft(mark(all(filled()), draw(2), null), standing, false, NOTHING)
    expect(wrong['draw 2']).toMatch(/^Trial 2 of Draw is blank/)
    expect(blocking).toEqual([draw(2)])
  })
  it('asks for the call of a major NO-GO only once sending is tried', () => {
    const fell = mark(filled(), { code: 'composure', trial: 0 }, 'incorrect')
    expect(assessDraft(fell, standing, false, NOTHING).wrong).toEqual({})
    expect(assessDraft(fell, standing, true, NOTHING).wrong).toHaveProperty(['composure 0'])
  })
  it('survives a reading half typed, and a void sheet needs no more marks', () => {
    const half = setReading(mark(filled(), draw(1), 'correct'), draw(1), 'draw-up', '44.', null)
    expect(assessDraft(half, standing, false, NOTHING).wrong).toHaveProperty(['draw 1'])
    const voided = assessDraft(filled({ holds: 'void' }), standing, true, NOTHING)
    expect([voided.score.outcome, voided.blocking]).toEqual(['VOID', []])
  })
  it('shows what the server found, where it was typed', () => {
    const answered = placeProblems(
      [
        { pointer: '/graderId', detail: 'Nobody has this id.' },
        { pointer: '/sheet/minors/0/trials/1', detail: 'Not so.' },
        { pointer: '/minors/0/faults/0/code', detail: 'No such fault.' },
        { pointer: '/majors/1/atCall', detail: 'Too late.' },
        { pointer: '/somewhere', detail: 'Else.' },
      ],
      {
        majors: standing.majors.map(({ code }) => ({ code, mark: null, faults: [], note: null })),
        minors: [{ code: 'draw', trials: [], faults: [{ trial: 3, code: 'x' }], readings: [] }],
      },
    )
    expect(answered).toEqual({
      head: { grader: 'Nobody has this id.' },
      cells: { 'draw 2': 'Not so.', 'draw 3': 'No such fault.', 'composure 0': 'Too late.' },
      other: ['Else.'],
    })
    expect(assessDraft(filled(), standing, true, answered).head.grader).toBe('Nobody has this id.')
  })
})

describe('what fills itself in', () => {
  it('the arm, where only one is possible', () => {
    expect(chooseArm(['sword', 'rifle'], ['saber', 'sword'], '')).toBe('sword')
    expect(chooseArm(['sword', 'saber'], ['saber', 'sword'], '')).toBe('')
    expect(chooseArm(['sword', 'saber'], ['saber', 'sword'], 'saber')).toBe('saber')
    expect(chooseArm(['rifle'], ['saber', 'sword'], 'saber')).toBe('saber')
    expect(chooseArm([], ['rifle'], '')).toBe('rifle')
    expect(armFor([], 'sword')).toBe('')
  })
  it('the sponsor of record that day, first and last day included', () => {
    const sponsors = [
      { id: id(1), sponsorId: id(2), sponsorName: 'A', from: '2026-01-01', to: '2026-06-30' },
      { id: id(3), sponsorId: id(4), sponsorName: 'B', from: '2026-06-30', to: null },
    ]
    const on = (day: string) => sponsorOfRecord({ sponsors }, day)?.sponsorName
    expect(['2025-12-31', '2026-01-01', '2026-06-30', '2026-07-01'].map(on)).toEqual([undefined, 'A', 'B', 'B'])
    expect(sponsorOfRecord(undefined, '2026-01-01')).toBeUndefined()
  })
  it('the standard in force', () => {
    const draft = { ...standing, id: id(31), version: 3, publishedAt: null }
    const coming = { ...standing, id: id(32), version: 2, effectiveFrom: '2027-01-01' }
    expect(enterable([standing, draft, coming]).map(({ version }) => version)).toEqual([2, 1])
    expect(defaultStandardId([standing, draft, coming], '2026-11-25')).toBe(standing.id)
    expect(defaultStandardId([coming], '2026-11-25')).toBe(coming.id)
    expect(defaultStandardId([draft], '2026-11-25')).toBe('')
  })
  it('what would be missed is kept', () => {
    const empty = newDraft(id(1), {
      standardId: standing.id,
      grader: person(3),
      day: '2026-11-17',
      arm: '',
    })
    expect(hasContent(empty)).toBe(false)
    expect(hasContent({ ...empty, candidate: person(4) })).toBe(true)
    expect(hasContent(mark(empty, draw(1), 'correct'))).toBe(true)
    expect(hasContent(mark(mark(empty, draw(1), 'correct'), draw(1), null))).toBe(false)
  })
})

describe('what the screen says', () => {
  const stored = (part: object) => ({
    id: id(1),
    state: 'counted' as const,
    arrivedLate: false,
    result: result({ outcome: 'GO', go: 11 }),
    violations: [],
    ...part,
  })
  const violation = { rule: 'grader-coached' as const, waivable: false, detail: 'SSG Ilunga coached until 20 May.' }
  it('of a stored sheet', () => {
    expect(formatStored(stored({}), false)).toBe('Counted as attempt 2: GO, 11 of 0.')
    expect(formatStored(stored({ state: 'held', violations: [violation] }), false)).toBe(
      'Stored and held for the training office: one condition not met.',
    )
    expect(formatStored(stored({ result: result({ ending: 'void', outcome: 'VOID' }) }), false)).toBe(
      'Stored: void, no attempt.',
    )
    expect(formatStored(stored({ arrivedLate: true }), false)).toBe(
      'Counted as attempt 2: GO, 11 of 0. It came in after a later sheet of the same soldier.',
    )
    expect(formatStored(stored({}), true)).toBe('Stored as practice: GO. It enters no figure.')
    expect(formatWhyHeld({ ...stored({}), violations: [violation] }, '2026-11-25', String)).toEqual([
      'SSG Ilunga coached until 20 May. This is never waived.',
    ])
  })
  it('of what is open', () => {
    expect(formatUnfinished(['Uniform', 'Draw, trial 1'])).toBe(
      'The sheet is not finished. Still open: Uniform and Draw, trial 1.',
    )
    expect(formatUnfinished(['A', 'B', 'C', 'D', 'E'])).toBe(
      'The sheet is not finished. Still open: A, B, C and 2 more.',
    )
  })
  it('of what is noted on a line', () => {
    let draft = mark(filled(), draw(1), 'incorrect')
    draft = setReading(toggleFault(draft, draw(1), 'elbow-bent'), draw(1), 'draw-up', '52', null)
    expect(formatNoted(standing, draft, 'draw')).toBe('1: Elbow bent on the way to the carry, 52 deg')
    expect(formatNoted(standing, draft, 'return')).toBe('')
    const fell = toggleFault(
      mark(filled(), { code: 'composure', trial: 0 }, 'incorrect'),
      { code: 'composure', trial: 0 },
      'talked',
    )
    expect(formatNoted(standing, fell, 'composure')).toBe('Spoke or smiled')
  })
  it('by titles, not codes', () => {
    expect(inTitles('"draw" has no gauge "tip-height" or "else".', standing)).toBe(
      'Draw has no gauge Height of the tip above the ground or "else".',
    )
  })
})

describe('a soldier typed faster than the list comes', () => {
  const found = [{ rosterNumber: '100' }, { rosterNumber: '1001' }]
  it('is the one found or the one whose number it is, else nobody', () => {
    expect(onlyMatch(found, '100')).toBe(found[0])
    expect(onlyMatch([found[1]!], 'ash')).toBe(found[1])
    expect(onlyMatch(found, '10')).toBeUndefined()
    expect(onlyMatch([], '10')).toBeUndefined()
  })
})

describe('faults by their numbers on paper', () => {
  const faults = ['elbow-bent', 'late', 'tip-low'].map((code) => ({ code }))

  it('are read whatever stands between them, each once, in the order of the paper', () => {
    expect(readFaultNumbers(faults, '3, 1;1')).toEqual({ codes: ['elbow-bent', 'tip-low'], unknown: [] })
    expect(readFaultNumbers(faults, ' ')).toEqual({ codes: [], unknown: [] })
    expect(toFaultNumbers(faults, ['tip-low', 'elbow-bent'])).toBe('1 3')
  })

  it('that the measure does not have are named', () => {
    expect(readFaultNumbers(faults, '0 2 14')).toEqual({ codes: ['late'], unknown: ['0', '14'] })
  })

  it('replace those of the trial, and of no other', () => {
    const first = setFaults(mark(filled(), draw(1), 'incorrect'), draw(1), ['elbow-bent'])
    const both = setFaults(mark(first, draw(2), 'incorrect'), draw(2), ['late', 'tip-low'])
    const changed = setFaults(both, draw(2), ['elbow-bent'])
    expect(faultsAt(changed, draw(1))).toEqual(['elbow-bent'])
    expect(faultsAt(changed, draw(2))).toEqual(['elbow-bent'])
  })
})
