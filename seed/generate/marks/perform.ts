import type { StandardBody } from '../../../server/contract/standards/standards.ts'
import type { Random } from '../random.ts'
import { type BandedGauge, readingInside, readingOutside } from './draw-reading.ts'
import { measureTrait } from './measure-traits.ts'

/** One execution of a command as it really was, and what was measured of it. */
export interface Execution {
  readonly isRight: boolean
  /** What was wrong, apart from readings. */
  readonly faults: readonly string[]
  readonly readings: readonly { readonly gauge: string; readonly value: string; readonly isOutside: boolean }[]
}

/** A whole test: the executions of each minor measure. */
export type Performance = ReadonlyMap<string, readonly Execution[]>

/** How often a gauge is used on a trial, and on one that looks wrong. */
const MEASURED = 0.4
const MEASURED_IN_DOUBT = 0.8
/** How often it is the position that fails, where a measure has gauges. */
const POSITION_FAILS = 0.45
const TWO_FAULTS = 0.15
/** How often people repeat the fault they made last. */
const HABIT = 0.55

/**
 * Carries out a test. In: the version of the standard, the chance of a right trial by measure, and the faults the
 * candidate is used to, by measure; these are renewed with what was seen.
 */
export function perform(
  random: Random,
  standard: StandardBody,
  chanceOf: (measure: string) => number,
  habits: Map<string, string>,
): Performance {
  return new Map(
    standard.minors.map(({ code }) => {
      const chance = chanceOf(code)
      const executions = Array.from({ length: standard.rule.trials }, () =>
        random.chance(chance) ? right(random, standard, code) : wrong(random, standard, code, habits),
      )
      return [code, executions]
    }),
  )
}

/** One fault of a measure that is seen, not measured, as often as it is typical. */
export function typicalFault(random: Random, standard: StandardBody, measure: string): string {
  const { faults } = measureTrait(standard.code, measure)
  const measured = new Set(standard.gauges.flatMap(({ low, high }) => [low, high]))
  const seen = standard.minors
    .find(({ code }) => code === measure)!
    .faults.map(({ code }) => code)
    .filter((code) => !measured.has(code))
  return random.weighted(seen.map((code) => [code, faults[code] ?? 1] as const))
}

function gaugesOf(standard: StandardBody, measure: string): BandedGauge[] {
  const { gauges } = standard.minors.find(({ code }) => code === measure)!
  return gauges.map((code) => {
    const gauge = standard.gauges.find((one) => one.code === code)!
    return { code, unit: gauge.unit, min: gauge.min!, max: gauge.max! }
  })
}

const measuredInside = (random: Random, gauges: readonly BandedGauge[]): Execution['readings'] =>
  gauges
    .filter(() => random.chance(MEASURED))
    .map((gauge) => ({ gauge: gauge.code, value: readingInside(random, gauge), isOutside: false }))

const right = (random: Random, standard: StandardBody, measure: string): Execution => ({
  isRight: true,
  faults: [],
  readings: measuredInside(random, gaugesOf(standard, measure)),
})

function wrong(random: Random, standard: StandardBody, measure: string, habits: Map<string, string>): Execution {
  const gauges = gaugesOf(standard, measure)
  if (gauges.length > 0 && random.chance(POSITION_FAILS)) return outOfPosition(random, standard, gauges)
  const habit = habits.get(measure)
  const first = habit !== undefined && random.chance(HABIT) ? habit : typicalFault(random, standard, measure)
  habits.set(measure, first)
  const second = random.chance(TWO_FAULTS) ? typicalFault(random, standard, measure) : first
  return { isRight: false, faults: [...new Set([first, second])], readings: measuredInside(random, gauges) }
}

/** A position outside its band: measured, or seen without measuring it. */
function outOfPosition(random: Random, standard: StandardBody, gauges: readonly BandedGauge[]): Execution {
  const failing = random.pick(gauges)
  const readings = measuredInside(
    random,
    gauges.filter((gauge) => gauge !== failing),
  )
  const value = readingOutside(random, failing)
  if (random.chance(MEASURED_IN_DOUBT)) {
    return { isRight: false, faults: [], readings: [...readings, { gauge: failing.code, value, isOutside: true }] }
  }
  const { low, high } = standard.gauges.find(({ code }) => code === failing.code)!
  return { isRight: false, faults: [Number(value) < Number(failing.min) ? low! : high!], readings }
}
