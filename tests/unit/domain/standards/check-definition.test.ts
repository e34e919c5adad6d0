import { describe, expect, it } from 'vitest'
import { checkDefinition, type Definition } from '../../../../server/domain/standards/check-definition.ts'

const FAULT = { code: 'slow' }
const TIP = { code: 'tip', min: '4', max: '6', low: 'tip-low', high: 'tip-high' }
const calls = (...measures: string[]) => measures.flatMap((measure) => [1, 2].map((trial) => ({ measure, trial })))

const SOUND: Definition = {
  rule: { trials: 2 },
  majors: [{ code: 'composure', faults: [{ code: 'spoke' }] }],
  minors: [
    { code: 'draw', gauges: [], faults: [FAULT] },
    { code: 'halt', gauges: ['tip'], faults: [FAULT, { code: 'tip-low' }, { code: 'tip-high' }] },
  ],
  gauges: [TIP],
  calls: calls('draw', 'halt'),
}
const [draw, halt] = SOUND.minors as [Definition['minors'][number], Definition['minors'][number]]

/** Rule and pointer of each problem. */
const problems = (change: Partial<Definition>) =>
  checkDefinition({ ...SOUND, ...change }).map(({ rule, pointer }) => `${rule} ${pointer}`)

describe('a definition that is sound', () => {
  it.each<[string, Partial<Definition>]>([
    ['as it is', {}],
    ['with calls in any order', { calls: [...SOUND.calls].reverse() }],
    ['with the same fault of two measures', { minors: [draw, halt] }],
    ['with a gauge that nothing limits', { gauges: [{ code: 'tip', min: null, max: null }] }],
    ['with a gauge that names no fault', { gauges: [{ ...TIP, low: null, high: undefined }] }],
    ['with a band of one value', { gauges: [{ ...TIP, min: '6', max: '6.0' }] }],
    ['with a gauge that no measure has', { gauges: [TIP, { ...TIP, code: 'angle' }] }],
    ['without majors', { majors: [] }],
  ])('%s has no problem', (_what, change) => {
    expect(problems(change)).toEqual([])
  })
})

describe('a definition that contradicts itself', () => {
  it.each<[string, Partial<Definition>, string[]]>([
    ['a minor twice', { minors: [draw, halt, draw] }, ['repeated-code /minors/2/code', 'call-missing /calls']],
    ['a major twice', { majors: [SOUND.majors[0]!, SOUND.majors[0]!] }, ['repeated-code /majors/1/code']],
    ['a minor called as a major is', { majors: [{ code: 'draw', faults: [] }] }, ['repeated-code /minors/0/code']],
    ['a gauge twice', { gauges: [TIP, TIP] }, ['repeated-code /gauges/1/code']],
    [
      'a fault of a major twice',
      { majors: [{ code: 'composure', faults: [FAULT, FAULT] }] },
      ['repeated-code /majors/0/faults/1/code'],
    ],
    [
      'a fault of a minor twice',
      { minors: [{ ...draw, faults: [FAULT, FAULT] }, halt] },
      ['repeated-code /minors/0/faults/1/code'],
    ],
    ['a band upside down', { gauges: [{ ...TIP, min: '6.01', max: '6' }] }, ['band-upside-down /gauges/0/max']],
    [
      'a band below zero upside down',
      { gauges: [{ ...TIP, min: '-1', max: '-2' }] },
      ['band-upside-down /gauges/0/max'],
    ],
    [
      'a gauge that is not there',
      { minors: [{ ...draw, gauges: ['angle'] }, halt] },
      ['unknown-code /minors/0/gauges/0'],
    ],
    [
      'a gauge that adds faults its measure lacks',
      { minors: [draw, { ...halt, faults: [] }] },
      ['unknown-code /minors/1/gauges/0', 'unknown-code /minors/1/gauges/0'],
    ],
    ['a call of no measure', { calls: [...SOUND.calls, { measure: 'turn', trial: 1 }] }, ['call-of-no-trial /calls/4']],
    [
      'a call of a major',
      { calls: [...SOUND.calls, { measure: 'composure', trial: 1 }] },
      ['call-of-no-trial /calls/4'],
    ],
    [
      'a call of a third trial of two',
      { calls: [...SOUND.calls, { measure: 'draw', trial: 3 }] },
      ['call-of-no-trial /calls/4'],
    ],
    ['a call twice', { calls: [...SOUND.calls, { measure: 'draw', trial: 1 }] }, ['repeated-call /calls/4']],
    ['a trial that is never called', { calls: SOUND.calls.slice(1) }, ['call-missing /calls']],
    ['a measure that is never called', { calls: calls('halt') }, ['call-missing /calls']],
  ])('%s is told where', (_what, change, expected) => {
    expect(problems(change)).toEqual(expected)
  })

  it('says what to do in a sentence', () => {
    for (const { detail } of checkDefinition({ ...SOUND, gauges: [{ ...TIP, min: '9' }], calls: [] })) {
      expect(detail).toMatch(/^[A-Z0-9].+\.$/)
    }
  })
})
