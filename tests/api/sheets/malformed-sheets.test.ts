import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { countRows } from '../../support/count-rows.ts'
import { makeTestSetting, putSheet, type TestSetting } from '../../support/factories.ts'
import { GO_MARKS, type SheetInput } from '../../support/sheet-body.ts'

type Change = Record<string, unknown>
type Malformed = [what: string, change: Change, rule: string, pointer: string]

const DRAW = { code: 'draw', trials: ['correct', 'correct', 'incorrect'] }
const HALT = { code: 'halt', trials: ['correct', 'correct', 'incorrect'] }
const TURN = { code: 'turn', trials: ['correct', 'correct', 'incorrect'] }
const COMPOSURE = { code: 'composure', mark: 'GO' }

const draw = (more: object) => ({ minors: [{ ...DRAW, ...more }, HALT, TURN] })
const halt = (more: object) => ({ minors: [DRAW, { ...HALT, ...more }, TURN] })
const reading = (more: object) => halt({ readings: [{ trial: 1, gauge: 'tip', value: '7', override: null, ...more }] })
const composure = (more: object) => ({ majors: [{ ...COMPOSURE, ...more }] })
const stopped = (atCall: unknown, minors: object[] = []) => ({ ...composure({ mark: 'NO-GO', atCall }), minors })

/** Every kind of rule 1.1, in its order. The short standard has nine calls: draw 1 to 3, halt 4 to 6, turn 7 to 9. */
const KINDS: Malformed[] = [
  [
    'a major that is unknown',
    { majors: [COMPOSURE, { code: 'poise', mark: 'GO' }] },
    'unknown-major',
    '/majors/1/code',
  ],
  ['a minor as a major', { majors: [COMPOSURE, { code: 'draw', mark: 'GO' }] }, 'unknown-major', '/majors/1/code'],
  ['a major twice', { majors: [COMPOSURE, COMPOSURE] }, 'repeated-major', '/majors/1/code'],
  ['a minor that is unknown', { minors: [DRAW, { ...HALT, code: 'Halt' }] }, 'unknown-measure', '/minors/1/code'],
  ['a minor twice', { minors: [DRAW, HALT, DRAW] }, 'repeated-measure', '/minors/2/code'],
  ['a gauge that is unknown', reading({ gauge: 'angle' }), 'gauge-not-of-measure', '/minors/1/readings/0/gauge'],
  [
    'a gauge of another measure',
    draw({ readings: [{ trial: 1, gauge: 'tip', value: '5' }] }),
    'gauge-not-of-measure',
    '/minors/0/readings/0/gauge',
  ],
  [
    'a fault that is unknown',
    draw({ faults: [{ trial: 1, code: 'lazy' }] }),
    'unknown-fault',
    '/minors/0/faults/0/code',
  ],
  [
    'a fault of another measure',
    draw({ faults: [{ trial: 1, code: 'tip-low' }] }),
    'unknown-fault',
    '/minors/0/faults/0/code',
  ],
  [
    'the same fault twice on a trial',
    draw({
      faults: [
        { trial: 3, code: 'slow' },
        { trial: 1, code: 'slow' },
        { trial: 3, code: 'slow' },
      ],
    }),
    'repeated-fault',
    '/minors/0/faults/2',
  ],
  ['a mark that is unknown', draw({ trials: ['correct', 'GO'] }), 'not-an-allowed-value', '/minors/0/trials/1'],
  ['a mark in upper case', draw({ trials: ['CORRECT'] }), 'not-an-allowed-value', '/minors/0/trials/0'],
  ['a mark that is a boolean', draw({ trials: [true] }), 'not-an-allowed-value', '/minors/0/trials/0'],
  [
    'four trials',
    draw({ trials: ['correct', 'correct', 'correct', 'correct'] }),
    'too-many-trials',
    '/minors/0/trials',
  ],
  ['three trials and a null', draw({ trials: [...DRAW.trials, null] }), 'too-many-trials', '/minors/0/trials'],
  ['four nulls', draw({ trials: [null, null, null, null] }), 'too-many-trials', '/minors/0/trials'],
  [
    'a blank between marks',
    draw({ trials: ['correct', null, 'correct'] }),
    'blank-between-marks',
    '/minors/0/trials/1',
  ],
  ['a blank before marks', draw({ trials: [null, 'correct'] }), 'blank-between-marks', '/minors/0/trials/0'],
  [
    'a fault on a blank trial',
    draw({ trials: ['correct', 'correct'], faults: [{ trial: 3, code: 'slow' }] }),
    'fault-on-blank',
    '/minors/0/faults/0/trial',
  ],
  [
    'a fault on a trial past the last',
    draw({ faults: [{ trial: 4, code: 'slow' }] }),
    'fault-on-blank',
    '/minors/0/faults/0/trial',
  ],
  [
    'a reading on a blank trial',
    halt({ trials: ['correct', 'correct', null], readings: [{ trial: 3, gauge: 'tip', value: '5' }] }),
    'reading-on-blank',
    '/minors/1/readings/0/trial',
  ],
  [
    'two readings of one gauge on a trial',
    halt({
      readings: [
        { trial: 1, gauge: 'tip', value: '5' },
        { trial: 1, gauge: 'tip', value: '5.0' },
      ],
    }),
    'repeated-reading',
    '/minors/1/readings/1',
  ],
  ...['', ' 5', '5 ', '5.', '.5', '+5', '5,25', '12345', '1.23456', '1e3', '٥', '5\n', '--5', 'NaN'].map(
    (value): Malformed => [
      `the value ${JSON.stringify(value)}`,
      reading({ value }),
      'wrong-format',
      '/minors/1/readings/0/value',
    ],
  ),
  ...[5.25, null, true, ['5'], { value: '5' }].map(
    (value): Malformed => [
      `the value ${JSON.stringify(value)}, which is no string`,
      reading({ value }),
      'wrong-type',
      '/minors/1/readings/0/value',
    ],
  ),
  ...['5', '4', '6.0', '4.0000', '6'].map(
    (value): Malformed => [
      `an override of ${value}, which lies inside its band`,
      reading({ value, override: 'ground uneven' }),
      'override-inside-band',
      '/minors/1/readings/0/override',
    ],
  ),
  ...['', ' ', '\t\n', '\u00a0\u2003'].map(
    (override): Malformed => [
      `the override ${JSON.stringify(override)}`,
      reading({ override }),
      'override-blank',
      '/minors/1/readings/0/override',
    ],
  ),
  ['a NO-GO without atCall', stopped(undefined), 'at-call', '/majors/0/atCall'],
  ['a NO-GO with atCall null', stopped(null), 'at-call', '/majors/0/atCall'],
  ['a NO-GO past the last call', stopped(10), 'at-call', '/majors/0/atCall'],
  ['a NO-GO before the first call', stopped(-1), 'too-small', '/majors/0/atCall'],
  ['a NO-GO at half a call', stopped(1.5), 'wrong-type', '/majors/0/atCall'],
  ['a NO-GO at a call that is text', stopped('3'), 'wrong-type', '/majors/0/atCall'],
  ['atCall on a GO', composure({ atCall: 3 }), 'at-call', '/majors/0/atCall'],
  ['atCall on a blank major', composure({ mark: null, atCall: 3 }), 'at-call', '/majors/0/atCall'],
  ['a major mark that is unknown', composure({ mark: 'correct' }), 'not-an-allowed-value', '/majors/0/mark'],
  ['an unknown fault of a major', composure({ faults: ['slow'] }), 'unknown-fault', '/majors/0/faults/0'],
  ['a fault of a major twice', composure({ faults: ['spoke', 'spoke'] }), 'repeated-fault', '/majors/0/faults/1'],
  [
    'a mark after the end',
    stopped(3, [DRAW, { ...HALT, trials: ['correct'] }]),
    'mark-after-end',
    '/minors/1/trials/0',
  ],
  [
    'a mark though the uniform was refused at inspection',
    stopped(0, [{ ...DRAW, trials: ['correct'] }]),
    'mark-after-end',
    '/minors/0/trials/0',
  ],
  ['a void without its kind', { void: {} }, 'not-an-allowed-value', '/void/kind'],
  ['a void for a reason that is unknown', { void: { kind: 'heat' } }, 'not-an-allowed-value', '/void/kind'],
  ['a void for another reason without text', { void: { kind: 'other' } }, 'not-allowed', '/void/text'],
  ['a void for another reason with blank text', { void: { kind: 'other', text: ' ' } }, 'not-allowed', '/void/text'],
  [
    'an outcome that is no outcome',
    { outcomeOnly: 'VOID', majors: [], minors: [] },
    'not-an-allowed-value',
    '/outcomeOnly',
  ],
  ['an outcome beside marked minors', { outcomeOnly: 'GO', majors: [] }, 'beside-outcome-only', '/minors/0'],
  ['an outcome beside a marked major', { outcomeOnly: 'GO', minors: [] }, 'beside-outcome-only', '/majors/0'],
  [
    'an outcome beside a void',
    { outcomeOnly: 'NO-GO', majors: [], minors: [], void: { kind: 'weather' } },
    'beside-outcome-only',
    '/void',
  ],
  ['finished before started', { startedAt: '2026-03-02T10:00:00.001Z' }, 'finished-before-started', '/finishedAt'],
  [
    'finished before started, in another zone',
    { startedAt: '2026-03-02T05:30:00-05:00', finishedAt: '2026-03-02T11:00:00+01:00' },
    'finished-before-started',
    '/finishedAt',
  ],
]

let test: TestApp
let setting: TestSetting
let stored: string
let before: Record<string, number>

beforeAll(async () => {
  test = await buildTestApp()
  setting = await makeTestSetting(test.office)
  stored = (await putSheet(test.office, setting.sheet())).id
  before = await countRows(test)
})
afterAll(() => test.close())

const sheetWith = (change: Change) => setting.sheet(change as Partial<SheetInput>)

describe.each(KINDS)('a sheet with %s', (_what, change, rule, pointer) => {
  it('is refused wherever it is sent', async () => {
    const sheet = sheetWith(change)
    for (const [method, path] of [
      ['PUT', `/api/sheets/${randomUUID()}`],
      ['POST', '/api/sheets/score'],
    ] as const) {
      const problem = await test.office.refused(422, method, path, sheet)
      expect(problem.type).toBe(`urn:reviewstand:problem:${rule}`)
      expect(problem.errors).toContainEqual({ pointer, rule, detail: expect.stringMatching(/\w{3}/) })
    }
    const amendment = { reason: 'Misread', sheet }
    const problem = await test.office.refused(422, 'POST', `/api/sheets/${stored}/amendments`, amendment)
    expect(problem.type).toBe(`urn:reviewstand:problem:${rule}`)
    expect(problem.errors).toContainEqual({ pointer: `/sheet${pointer}`, rule, detail: expect.any(String) })
  })
})

it('all these have changed nothing', async () => {
  expect(await countRows(test)).toEqual(before)
})

describe('what is not malformed', () => {
  it.each<[string, Change, object]>([
    ['a NO-GO before the first call', stopped(0), { ending: 'stopped', notTested: 3 }],
    ['a NO-GO after the last call', stopped(9, [DRAW, HALT, TURN]), { ending: 'stopped', go: 3, notTested: 0 }],
    ['blanks before a NO-GO', stopped(9), { ending: 'stopped', notTested: 3 }],
    ['a fault on a correct trial', draw({ faults: [{ trial: 1, code: 'slow' }] }), { outcome: 'GO', go: 3 }],
    ['the same fault on two trials', draw({ faults: [1, 2].map((trial) => ({ trial, code: 'slow' })) }), { go: 3 }],
    ['an override of a reading out of its band', reading({ override: 'ground uneven' }), { go: 3 }],
    ['a reading out of its band', reading({}), { go: 2, noGo: 1 }],
    ['a reading below zero', reading({ value: '-0.0001' }), { go: 2, noGo: 1 }],
    ['a reading as fine as it may be', reading({ value: '5.9999' }), { go: 3 }],
    ['measures in another order', { minors: [TURN, DRAW, HALT] }, { outcome: 'GO', go: 3 }],
    ['trailing blanks where a measure is decided', draw({ trials: ['correct', 'correct', null] }), { go: 3 }],
    [
      'a void that kept its marks',
      { ...GO_MARKS, void: { kind: 'weather' } },
      { ending: 'void', outcome: 'VOID', go: 2 },
    ],
  ])('%s', async (_what, change, expected) => {
    expect((await putSheet(test.office, sheetWith(change))).result).toMatchObject(expected)
  })

  it.each<[string, Change]>([
    ['a trailing blank where a measure is undecided', draw({ trials: ['correct', 'incorrect'] })],
    ['a measure left out', { minors: [DRAW, HALT] }],
    ['a blank major', composure({ mark: null })],
    ['a major left out', { majors: [] }],
  ])('but unfinished: %s', async (_what, change) => {
    const before = await countRows(test)
    const problem = await test.office.refused(422, 'PUT', `/api/sheets/${randomUUID()}`, sheetWith(change))
    expect(problem.type).toBe('urn:reviewstand:problem:unfinished')
    expect(await countRows(test)).toEqual(before)
    expect(await test.office.post('/api/sheets/score', sheetWith(change), 200)).toMatchObject({
      result: { ending: 'unfinished', outcome: null, stillNeeded: 0, reachable: true },
    })
  })
})
