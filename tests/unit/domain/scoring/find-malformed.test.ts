import '../statistics/fixed-seed.ts'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { findMalformed } from '../../../../server/domain/scoring/find-malformed.ts'
import type {
  Malformed,
  MarkedMajor,
  MarkedMinor,
  Marks,
  ScoredStandard,
} from '../../../../server/domain/scoring/types.ts'
import { arbitrarySheet, callsUsed } from './arbitrary-sheet.ts'

type Place = Pick<Malformed, 'rule' | 'pointer'>

/** Spoils one place of a well-formed sheet; null where the sheet has no such place. `any` picks from a list. */
type Spoil = (
  standard: ScoredStandard,
  marks: Marks,
  any: (count: number) => number,
) => { readonly marks: unknown; readonly expected: readonly Place[] } | null

const withMinor = (marks: Marks, index: number, change: (minor: Required<MarkedMinor>) => object): unknown => ({
  ...marks,
  minors: marks.minors.map((minor, at) =>
    at === index ? { ...minor, ...change(minor as Required<MarkedMinor>) } : minor,
  ),
})

const withMajor = (marks: Marks, index: number, change: (major: MarkedMajor) => object): unknown => ({
  ...marks,
  majors: marks.majors.map((major, at) => (at === index ? { ...major, ...change(major) } : major)),
})

/** The index of one of the items that fit, or null. */
function choose<Item>(list: readonly Item[], any: (count: number) => number, fits: (item: Item) => boolean) {
  const indices = list.flatMap((item, index) => (fits(item) ? [index] : []))
  return indices.length === 0 ? null : indices[any(indices.length)]!
}

const markedTrials = (minor: MarkedMinor): number => minor.trials.filter((mark) => mark !== null).length

const isNoGo = ({ mark }: MarkedMajor): boolean => mark === 'NO-GO'

/** Spoils one minor measure that fits; `change` gives what to write and where it is found. */
const inMinor =
  (
    fits: (minor: Required<MarkedMinor>, standard: ScoredStandard) => boolean,
    change: (
      minor: Required<MarkedMinor>,
      standard: ScoredStandard,
      any: (count: number) => number,
    ) => { write: object; rule: Malformed['rule']; at: string },
  ): Spoil =>
  (standard, marks, any) => {
    const index = choose(marks.minors, any, (minor) => fits(minor as Required<MarkedMinor>, standard))
    if (index === null) return null
    const { write, rule, at } = change(marks.minors[index] as Required<MarkedMinor>, standard, any)
    return { marks: withMinor(marks, index, () => write), expected: [{ rule, pointer: `/minors/${index}${at}` }] }
  }

const inMajor =
  (
    fits: (major: MarkedMajor) => boolean,
    change: (major: MarkedMajor, standard: ScoredStandard) => { write: object; rule: Malformed['rule']; at: string },
  ): Spoil =>
  (standard, marks, any) => {
    const index = choose(marks.majors, any, fits)
    if (index === null) return null
    const { write, rule, at } = change(marks.majors[index]!, standard)
    return { marks: withMajor(marks, index, () => write), expected: [{ rule, pointer: `/majors/${index}${at}` }] }
  }

const blankTrial = (minor: MarkedMinor, standard: ScoredStandard) => markedTrials(minor) < standard.rule.trials

const SPOILS: Record<string, Spoil> = {
  'an unknown major measure': (_standard, marks) => ({
    marks: { ...marks, majors: [...marks.majors, { code: 'bearing', mark: 'GO' }] },
    expected: [{ rule: 'unknown-major', pointer: `/majors/${marks.majors.length}/code` }],
  }),
  'a repeated major measure': (_standard, marks, any) =>
    marks.majors.length === 0
      ? null
      : {
          marks: { ...marks, majors: [...marks.majors, marks.majors[any(marks.majors.length)]] },
          expected: [{ rule: 'repeated-major', pointer: `/majors/${marks.majors.length}/code` }],
        },
  'an unknown minor measure': (_standard, marks) => ({
    marks: { ...marks, minors: [...marks.minors, { code: 'major-0', trials: [] }] },
    expected: [{ rule: 'unknown-measure', pointer: `/minors/${marks.minors.length}/code` }],
  }),
  'a repeated minor measure': (_standard, marks, any) =>
    marks.minors.length === 0
      ? null
      : {
          marks: {
            ...marks,
            minors: [...marks.minors, { code: marks.minors[any(marks.minors.length)]!.code, trials: [] }],
          },
          expected: [{ rule: 'repeated-measure', pointer: `/minors/${marks.minors.length}/code` }],
        },
  'an unknown mark of a trial': inMinor(
    (minor) => markedTrials(minor) > 0,
    (minor, _standard, any) => {
      const index = any(markedTrials(minor))
      const mark = ['GO', 'Correct', '', true, 1][any(5)]
      return {
        write: { trials: minor.trials.with(index, mark as never) },
        rule: 'unknown-mark',
        at: `/trials/${index}`,
      }
    },
  ),
  'an unknown mark of a major measure': inMajor(
    ({ mark }) => mark === 'GO',
    () => ({ write: { mark: 'PASS' }, rule: 'unknown-mark', at: '/mark' }),
  ),
  'more trials than there are, nulls counted': inMinor(
    () => true,
    (minor, standard) => ({
      write: { trials: [...minor.trials, ...Array(standard.rule.trials + 1 - minor.trials.length).fill(null)] },
      rule: 'too-many-trials',
      at: '/trials',
    }),
  ),
  'a blank between marks': inMinor(
    (minor) =>
      markedTrials(minor) > 1 &&
      [...minor.faults, ...minor.readings].every(({ trial }) => trial === markedTrials(minor)),
    (minor, _standard, any) => {
      const index = any(markedTrials(minor) - 1)
      return { write: { trials: minor.trials.with(index, null) }, rule: 'blank-between-marks', at: `/trials/${index}` }
    },
  ),
  'an unknown fault of a trial': inMinor(
    (minor) => markedTrials(minor) > 0,
    (minor) => ({
      write: { faults: [...minor.faults, { trial: 1, code: 'talked' }] },
      rule: 'unknown-fault',
      at: `/faults/${minor.faults.length}/code`,
    }),
  ),
  'an unknown fault of a major measure': inMajor(
    ({ mark }) => mark !== null,
    (major) => ({
      write: { faults: [...(major.faults ?? []), 'rushed'] },
      rule: 'unknown-fault',
      at: `/faults/${major.faults?.length ?? 0}`,
    }),
  ),
  'the same fault twice on one trial': inMinor(
    (minor) => minor.faults.length > 0,
    (minor, _standard, any) => ({
      write: { faults: [...minor.faults, minor.faults[any(minor.faults.length)]] },
      rule: 'repeated-fault',
      at: `/faults/${minor.faults.length}`,
    }),
  ),
  'the same fault twice on one major measure': inMajor(
    ({ faults }) => (faults?.length ?? 0) > 0,
    (major) => ({
      write: { faults: [...major.faults!, major.faults![0]] },
      rule: 'repeated-fault',
      at: `/faults/${major.faults!.length}`,
    }),
  ),
  'a fault on a blank trial': inMinor(blankTrial, (minor, standard, any) => ({
    write: {
      faults: [
        ...minor.faults,
        { trial: [markedTrials(minor) + 1, standard.rule.trials + 1, 0][any(3)], code: 'rushed' },
      ],
    },
    rule: 'fault-on-blank',
    at: `/faults/${minor.faults.length}/trial`,
  })),
  'a gauge that is not of the measure': (standard, marks, any) => {
    const others = (minor: MarkedMinor) => {
      const own = standard.minors.find(({ code }) => code === minor.code)!.gauges
      return ['wingspan', ...standard.gauges.map(({ code }) => code).filter((code) => !own.includes(code))]
    }
    return inMinor(
      (minor) => markedTrials(minor) > 0,
      (minor) => ({
        write: {
          readings: [
            ...minor.readings,
            { trial: 1, gauge: others(minor)[any(others(minor).length)], value: '5', override: null },
          ],
        },
        rule: 'gauge-not-of-measure',
        at: `/readings/${minor.readings.length}/gauge`,
      }),
    )(standard, marks, any)
  },
  'two readings of one gauge on one trial': inMinor(
    (minor) => minor.readings.length > 0,
    (minor, _standard, any) => ({
      write: { readings: [...minor.readings, minor.readings[any(minor.readings.length)]] },
      rule: 'repeated-reading',
      at: `/readings/${minor.readings.length}`,
    }),
  ),
  'a reading on a blank trial': inMinor(
    (minor, standard) =>
      blankTrial(minor, standard) && standard.minors.find(({ code }) => code === minor.code)!.gauges.length > 0,
    (minor, standard, any) => ({
      write: {
        readings: [
          ...minor.readings,
          {
            trial: [markedTrials(minor) + 1, standard.rule.trials + 1, 0][any(3)],
            gauge: standard.minors.find(({ code }) => code === minor.code)!.gauges[0],
            value: '5',
          },
        ],
      },
      rule: 'reading-on-blank',
      at: `/readings/${minor.readings.length}/trial`,
    }),
  ),
  'a value that is no reading': inMinor(
    (minor) => minor.readings.length > 0,
    (minor, _standard, any) => {
      const values = ['', '5.', '.5', '+5', '5,5', '12345', '1.23456', ' 5', '5 ', '1e1', '5\n', '--5', '٥', 5, null]
      const index = any(minor.readings.length)
      const reading = { ...minor.readings[index], value: values[any(values.length)] }
      return {
        write: { readings: minor.readings.with(index, reading as never) },
        rule: 'reading-value',
        at: `/readings/${index}/value`,
      }
    },
  ),
  'an override of a reading inside its band': inMinor(
    (minor) => markedTrials(minor) > 0 && !minor.readings.some(({ trial, gauge }) => trial === 1 && gauge === 'slant'),
    (minor, standard) => {
      const slant = standard.minors.find(({ code }) => code === minor.code)!.gauges.includes('slant')
      const reading = { trial: 1, gauge: 'slant', value: '35.0', override: 'looked fine' }
      return {
        write: { readings: [...minor.readings, reading] },
        rule: slant ? 'override-inside-band' : 'gauge-not-of-measure',
        at: `/readings/${minor.readings.length}/${slant ? 'override' : 'gauge'}`,
      }
    },
  ),
  'an override of blanks only': inMinor(
    (minor) => minor.readings.length > 0,
    (minor, _standard, any) => {
      const index = any(minor.readings.length)
      const reading = { ...minor.readings[index]!, override: ['', ' ', '\t \n'][any(3)]! }
      return {
        write: { readings: minor.readings.with(index, reading) },
        rule: 'override-blank',
        at: `/readings/${index}/override`,
      }
    },
  ),
  'a NO-GO without its call': inMajor(isNoGo, () => ({ write: { atCall: null }, rule: 'at-call', at: '/atCall' })),
  'a NO-GO before the first call': inMajor(isNoGo, () => ({ write: { atCall: -1 }, rule: 'at-call', at: '/atCall' })),
  'a NO-GO after the last call': inMajor(isNoGo, (_major, { calls }) => ({
    write: { atCall: calls.length + 1 },
    rule: 'at-call',
    at: '/atCall',
  })),
  'a NO-GO between two calls': inMajor(isNoGo, () => ({ write: { atCall: 0.5 }, rule: 'at-call', at: '/atCall' })),
  'a GO or blank with a call': inMajor(
    (major) => !isNoGo(major),
    () => ({ write: { atCall: 0 }, rule: 'at-call', at: '/atCall' }),
  ),
  'marks after the call of a NO-GO, the least of two': (standard, marks, any) => {
    const used = callsUsed(standard, marks.minors)
    const index = choose(marks.majors, any, isNoGo)
    if (index === null || used === 0) return null
    const atCall = any(used)
    const later = standard.calls
      .slice(atCall)
      .map(({ measure, trial }) => ({ minor: marks.minors.findIndex(({ code }) => code === measure), trial }))
      .filter(({ minor, trial }) => marks.minors[minor]?.trials[trial - 1] != null)
    return {
      marks: withMajor(marks, index, () => ({ atCall })),
      expected: later.map(({ minor, trial }) => ({
        rule: 'mark-after-end' as const,
        pointer: `/minors/${minor}/trials/${trial - 1}`,
      })),
    }
  },
}

const places = (standard: ScoredStandard, marks: unknown): Place[] =>
  findMalformed(standard, marks as Marks).map(({ rule, pointer }) => ({ rule, pointer }))

describe('a well-formed sheet with one place spoiled', () => {
  it.each(Object.entries(SPOILS))('finds %s, and nothing else', (_name, spoil) => {
    const picks = fc.array(fc.nat(10_000), { minLength: 8, maxLength: 8 })
    fc.assert(
      fc.property(arbitrarySheet, picks, ({ standard, marks }, numbers) => {
        let next = 0
        const spoiled = spoil(standard, marks, (count) => numbers[next++]! % count)
        fc.pre(spoiled !== null)
        expect(places(standard, spoiled!.marks)).toEqual(spoiled!.expected)
      }),
      { numRuns: 60, maxSkipsPerRun: 400 },
    )
  })

  it('tells of several places at once', () => {
    fc.assert(
      fc.property(arbitrarySheet, ({ standard, marks }) => {
        const spoiled = {
          ...marks,
          majors: [...marks.majors, { code: 'bearing', mark: 'GO' }],
          minors: [...marks.minors, { code: 'leap', trials: ['correct'] }],
        }
        expect(places(standard, spoiled)).toEqual([
          { rule: 'unknown-major', pointer: `/majors/${marks.majors.length}/code` },
          { rule: 'unknown-measure', pointer: `/minors/${marks.minors.length}/code` },
        ])
      }),
      { numRuns: 30 },
    )
  })
})

describe('an outcome-only record', () => {
  const standard: ScoredStandard = {
    rule: { trials: 3, needed: 2, percent: '80' },
    majors: [{ code: 'uniform', faults: [{ code: 'torn' }] }],
    minors: [{ code: 'draw', gauges: ['tip-height'], faults: [{ code: 'rushed' }] }],
    gauges: [{ code: 'tip-height', min: '4', max: '6' }],
    calls: [1, 2, 3].map((trial) => ({ measure: 'draw', trial })),
  }
  const record = (more: object) => ({ majors: [], minors: [], outcomeOnly: 'GO', ...more })

  it('is well-formed with nothing or with blanks beside it', () => {
    expect(places(standard, record({}))).toEqual([])
    const blank = { majors: [{ code: 'uniform', mark: null }], minors: [{ code: 'draw', trials: [null, null] }] }
    expect(places(standard, record({ ...blank, void: null }))).toEqual([])
  })

  it.each([
    ['/void', { void: { kind: 'weather' } }],
    ['/majors/0', { majors: [{ code: 'uniform', mark: 'GO' }] }],
    ['/majors/0', { majors: [{ code: 'uniform', mark: 'NO-GO', atCall: 0 }] }],
    ['/minors/0', { minors: [{ code: 'draw', trials: ['correct'] }] }],
    ['/minors/0', { minors: [{ code: 'draw', trials: ['correct', 'incorrect', 'correct'] }] }],
  ])('has no place for %s: %j', (pointer, more) => {
    expect(places(standard, record(more))).toEqual([{ rule: 'beside-outcome-only', pointer }])
  })

  it.each([
    ['unknown-major', '/majors/0/code', { majors: [{ code: 'bearing', mark: null }] }],
    ['unknown-measure', '/minors/0/code', { minors: [{ code: 'leap', trials: [] }] }],
    [
      'repeated-measure',
      '/minors/1/code',
      {
        minors: [
          { code: 'draw', trials: [] },
          { code: 'draw', trials: [] },
        ],
      },
    ],
    ['too-many-trials', '/minors/0/trials', { minors: [{ code: 'draw', trials: [null, null, null, null] }] }],
  ])('is malformed like any sheet: %s at %s', (rule, pointer, more) => {
    expect(places(standard, record(more))).toEqual([{ rule, pointer }])
  })
})
