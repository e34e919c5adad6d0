import fc from 'fast-check'
import type { MarkedMajor, MarkedMinor, Marks, ScoredStandard } from '../../../../server/domain/scoring/types.ts'

export interface SheetCase {
  readonly standard: ScoredStandard
  readonly marks: Marks
}

const GAUGES: ScoredStandard['gauges'] = [
  { code: 'tip-height', min: '4', max: '6', low: 'tip-low', high: 'tip-high' },
  { code: 'slant', min: '25.5', max: '35', low: 'slant-off', high: 'slant-off' },
  { code: 'lean', min: '-2.5', max: null, low: 'lean-back' },
  { code: 'gap', max: '1.25', low: null, high: null },
]

const VALUES = [
  '5',
  '6',
  '6.0',
  '6.0001',
  '3.9999',
  '4',
  '25.5',
  '25.4999',
  '35.00',
  '36',
  '-2.5',
  '-2.51',
  '1.25',
  '1.26',
]

/** Of the measures; the gauges' faults are among them in part only. */
const FAULTS = ['tip-low', 'rushed', 'slant-off', 'flare-in', 'head-off'].map((code) => ({ code }))

/** Standards of one to seven minor and up to three major measures, with gauges and an order of calls of their own. */
export const arbitraryStandard: fc.Arbitrary<ScoredStandard> = fc
  .record({
    trials: fc.integer({ min: 1, max: 5 }),
    needed: fc.integer({ min: 1, max: 5 }),
    percent: fc.constantFrom('80', '70', '28', '56', '66.7', '100', '0.5', '50'),
    majors: fc.integer({ min: 0, max: 3 }),
    gaugesOfMinors: fc.array(fc.subarray(GAUGES.map(({ code }) => code)), { minLength: 1, maxLength: 7 }),
    turns: fc.array(fc.nat(1000), { minLength: 35, maxLength: 35 }),
  })
  .map(({ trials, needed, percent, majors, gaugesOfMinors, turns }) => {
    const minors = gaugesOfMinors.map((gauges, index) => ({ code: `minor-${index}`, gauges, faults: FAULTS }))
    return {
      rule: { trials, needed: Math.min(needed, trials), percent },
      majors: Array.from({ length: majors }, (_, index) => ({
        code: `major-${index}`,
        faults: [{ code: 'talked' }, { code: 'dropped' }],
      })),
      minors,
      gauges: GAUGES,
      calls: interleaved(
        minors.map(({ code }) => code),
        trials,
        turns,
      ),
    }
  })

/** An order of calls in which every measure has its trials in order, measures taking turns. */
function interleaved(measures: readonly string[], trials: number, turns: readonly number[]): ScoredStandard['calls'] {
  const called = new Map(measures.map((measure) => [measure, 0]))
  return Array.from({ length: measures.length * trials }, (_, index) => {
    const left = measures.filter((measure) => called.get(measure)! < trials)
    const measure = left[turns[index]! % left.length]!
    called.set(measure, called.get(measure)! + 1)
    return { measure, trial: called.get(measure)! }
  })
}

const pick = <Item>(list: readonly Item[], number: number): Item => list[number % list.length]!

/** A minor measure marked by the rules; with `complete`, in every trial. */
function arbitraryMinor(
  standard: ScoredStandard,
  minor: ScoredStandard['minors'][number],
  complete: boolean,
): fc.Arbitrary<MarkedMinor> {
  const { trials } = standard.rule
  return fc
    .record({
      marks: fc.array(fc.constantFrom('correct', 'correct', 'incorrect'), {
        minLength: complete ? trials : 0,
        maxLength: trials,
      }),
      blanks: fc.nat(trials),
      faults: fc.array(fc.tuple(fc.nat(100), fc.nat(100)), { maxLength: 4 }),
      readings: fc.array(
        fc.record({
          trial: fc.nat(100),
          gauge: fc.nat(100),
          value: fc.constantFrom(...VALUES),
          override: fc.boolean(),
        }),
        { maxLength: 4 },
      ),
    })
    .map(({ marks, blanks, faults, readings }) => {
      const blank = Array.from({ length: Math.min(blanks, trials - marks.length) }, () => null)
      const seenFaults = new Map<string, { trial: number; code: string }>()
      const seenReadings = new Map<string, NonNullable<MarkedMinor['readings']>[number]>()
      for (const [trial, code] of marks.length > 0 ? faults : []) {
        const fault = { trial: (trial % marks.length) + 1, code: pick(minor.faults, code).code }
        seenFaults.set(JSON.stringify(fault), fault)
      }
      for (const one of marks.length > 0 && minor.gauges.length > 0 ? readings : []) {
        const trial = (one.trial % marks.length) + 1
        const gauge = pick(minor.gauges, one.gauge)
        const { min, max } = standard.gauges.find(({ code }) => code === gauge)!
        const outside =
          (min != null && Number(one.value) < Number(min)) || (max != null && Number(one.value) > Number(max))
        const override = outside && one.override ? 'ground uneven' : null
        seenReadings.set(`${trial} ${gauge}`, { trial, gauge, value: one.value, override })
      }
      return {
        code: minor.code,
        trials: [...marks, ...blank],
        faults: [...seenFaults.values()],
        readings: [...seenReadings.values()],
      }
    })
}

/** The number of calls after which nothing more is marked. */
export function callsUsed(standard: ScoredStandard, minors: readonly MarkedMinor[]): number {
  const marked = (call: ScoredStandard['calls'][number]) =>
    minors.find(({ code }) => code === call.measure)?.trials[call.trial - 1] != null
  return standard.calls.findLastIndex(marked) + 1
}

function arbitraryMajors(
  standard: ScoredStandard,
  minors: readonly MarkedMinor[],
  complete: boolean,
): fc.Arbitrary<MarkedMajor[]> {
  const earliest = callsUsed(standard, minors)
  const marks = fc.constantFrom<('GO' | 'NO-GO' | null)[]>('GO', 'GO', 'GO', 'GO', 'NO-GO', complete ? 'GO' : null)
  return fc.tuple(
    ...standard.majors.map(({ code, faults }) =>
      fc
        .record({
          mark: marks,
          atCall: fc.integer({ min: earliest, max: standard.calls.length }),
          faults: fc.subarray(faults.map((fault) => fault.code)),
        })
        .map(({ mark, atCall, faults: found }): MarkedMajor => {
          if (mark === 'NO-GO') return { code, mark, atCall, faults: found }
          return mark === 'GO' ? { code, mark, faults: found } : { code, mark }
        }),
    ),
  )
}

/**
 * A well-formed sheet of a standard: blanks only trailing, some measures left out, in any order, sometimes void.
 * About half are complete: every trial of every measure marked and no major measure blank.
 */
export function arbitraryMarks(standard: ScoredStandard): fc.Arbitrary<Marks> {
  return fc.boolean().chain((complete) =>
    fc.tuple(...standard.minors.map((minor) => arbitraryMinor(standard, minor, complete))).chain((minors) =>
      fc
        .record({
          majors: arbitraryMajors(standard, minors, complete),
          minors: fc.shuffledSubarray(minors, { minLength: minors.length }),
          leaveOut: fc.boolean(),
          isVoid: fc.integer({ min: 0, max: 7 }),
        })
        .map(({ majors, minors: shuffled, leaveOut, isVoid }) => ({
          majors: leaveOut ? majors.filter(({ mark }) => mark !== null) : majors,
          minors: leaveOut ? shuffled.filter(({ trials }) => trials.some((mark) => mark !== null)) : shuffled,
          void: isVoid === 0 ? { kind: 'weather' } : null,
          outcomeOnly: null,
        })),
    ),
  )
}

/** A standard with a well-formed sheet of it. */
export const arbitrarySheet: fc.Arbitrary<SheetCase> = arbitraryStandard.chain((standard) =>
  arbitraryMarks(standard).map((marks) => ({ standard, marks })),
)
