import { packSheets } from './ability-data.ts'
import type { GainKind } from './attempt-kind.ts'
import { type CandidateHistory, gainVector, kindsOfTests, UNIT_GAINS } from './candidate-history.ts'
import { fitAbility } from './fit-ability.ts'
import { type KnownChance, type MajorCount, majorChance } from './major-chance.ts'
import type { MeasureLayout } from './measure-layout.ts'
import type { Spread } from './parameters.ts'
import { FEWEST_SHEETS, WEAK_PRIORS } from './priors.ts'

/** Goes up when the model changes, so that fits by an older one are made anew. */
export const MODEL_VERSION = 2

/** What is known of a standard in a unit, as it is kept. */
export interface UnitFit {
  readonly model: number
  /** Sheets with marks that it rests on. */
  readonly sheets: number
  /** Too few: spreads and gains are those of the priors. */
  readonly byPriors: boolean
  /** By place of the measure. */
  readonly ease: readonly number[]
  readonly gains: readonly number[]
  readonly spread: Spread
  /** Severity of each grader in logits, and its variance. */
  readonly graders: Readonly<Record<string, { readonly severity: number; readonly variance: number }>>
  /** Chance of a NO-GO by code of the major and kind. */
  readonly majors: Readonly<Record<string, Readonly<Record<GainKind, KnownChance>>>>
  /** Tests and passes by kind. */
  readonly tests: Readonly<Record<GainKind, { readonly tests: number; readonly passes: number }>>
}

const KINDS: readonly GainKind[] = ['first', 'second', 'later', 'renewal']

/**
 * Fits the model to all tests before a day.
 * In: the layout of the standard; histories; the day (null: all); a fit to begin with. Out: deterministic.
 */
export function fitUnit(
  layout: MeasureLayout,
  histories: readonly CandidateHistory[],
  before: string | null,
  start?: UnitFit | undefined,
): UnitFit {
  const graderIds: string[] = []
  const graderPlaces = new Map<string, number>()
  const placeOf = (id: string) => {
    if (!graderPlaces.has(id)) graderPlaces.set(id, graderIds.push(id) - 1)
    return graderPlaces.get(id)!
  }
  const counts = new Counts()
  const sheets = histories.flatMap((history, candidate) => {
    const kinds = kindsOfTests(history)
    return history.tests.flatMap((test, i) => {
      if (before !== null && test.day >= before) return []
      const places = layout.ofVersion.get(test.version)
      const { gain } = kinds[i]!
      counts.add(gain, test.passed, places?.majors ?? [], test.marks)
      if (!places || test.tried.length === 0) return []
      const { correct, tried } = test
      return [
        {
          candidate,
          grader: placeOf(test.graderId),
          gains: gainVector(gain),
          measures: places.measures,
          correct,
          tried,
        },
      ]
    })
  })
  const byPriors = sheets.length < FEWEST_SHEETS
  const design = {
    candidates: histories.length,
    graders: graderIds.length,
    gains: UNIT_GAINS,
    strengthOf: layout.strengthOf,
  }
  const data = packSheets(byPriors ? { ...design, gains: 0 } : design, byPriors ? withoutGains(sheets) : sheets)
  const fits = start && start.byPriors === byPriors && start.ease.length === layout.strengthOf.length
  const fit = fitAbility(data, {
    priors: WEAK_PRIORS,
    fixed: byPriors ? WEAK_PRIORS.spreadPeak : undefined,
    start: fits ? { ...start, gains: byPriors ? [] : start.gains } : undefined,
  })
  const { spread, ease, gains } = fit.parameters
  return {
    model: MODEL_VERSION,
    sheets: data.source.length,
    byPriors,
    ease: Array.from(ease),
    gains: byPriors ? new Array<number>(UNIT_GAINS).fill(0) : Array.from(gains),
    spread: byPriors ? WEAK_PRIORS.spreadPeak : { ...spread },
    graders: Object.fromEntries(
      graderIds.map((id, j) => [
        id,
        { severity: -spread.grader * fit.modes.grader[j]!, variance: spread.grader ** 2 * fit.graderVariances[j]! },
      ]),
    ),
    majors: counts.majorChances(),
    tests: counts.tests,
  }
}

const withoutGains = <Sheet extends { gains: readonly number[] }>(sheets: readonly Sheet[]) =>
  sheets.map((sheet) => ({ ...sheet, gains: [] }))

class Counts {
  readonly tests: Record<GainKind, { tests: number; passes: number }> = {
    first: { tests: 0, passes: 0 },
    second: { tests: 0, passes: 0 },
    later: { tests: 0, passes: 0 },
    renewal: { tests: 0, passes: 0 },
  }
  private readonly majors = new Map<string, Record<GainKind, { noGo: number; judged: number }>>()

  add(kind: GainKind, passed: boolean, majors: readonly string[], marks: string): void {
    this.tests[kind].tests += 1
    if (passed) this.tests[kind].passes += 1
    majors.forEach((code, place) => {
      const mark = marks[place]
      if (mark !== 'G' && mark !== 'N') return
      const counts = this.majors.get(code) ?? byKind(() => ({ noGo: 0, judged: 0 }))
      this.majors.set(code, counts)
      counts[kind].judged += 1
      if (mark === 'N') counts[kind].noGo += 1
    })
  }

  majorChances(): UnitFit['majors'] {
    return Object.fromEntries(
      [...this.majors].map(([code, counts]) => {
        const all = KINDS.reduce<MajorCount>(
          (sum, kind) => ({ noGo: sum.noGo + counts[kind].noGo, judged: sum.judged + counts[kind].judged }),
          { noGo: 0, judged: 0 },
        )
        return [code, byKind((kind) => majorChance(counts[kind], all))]
      }),
    )
  }
}

function byKind<Value>(value: (kind: GainKind) => Value): Record<GainKind, Value> {
  return { first: value('first'), second: value('second'), later: value('later'), renewal: value('renewal') }
}
