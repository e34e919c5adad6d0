import type { Random } from '../../../seed/generate/random.ts'
import type { SheetBody } from '../../../server/contract/sheets/sheets.ts'
import type { StandardBody } from '../../../server/contract/standards/standards.ts'

type Minor = SheetBody['minors'][number]
type Gauge = StandardBody['gauges'][number]

export interface MarkedTest {
  readonly majors: SheetBody['majors']
  readonly minors: SheetBody['minors']
}

const STOPPED = 0.03
const THIRD_TRIAL = 0.6
const READ_GAUGE = 0.5
const OUT_OF_BAND = 0.25
const TWO_FAULTS = 0.3

/**
 * Full marks of one test, called in the standard's order: trials with faults and readings, and now and then a major
 * measure that ends it. `calls`: how many are called at most (a test that is broken off).
 */
export function markTest(
  random: Random,
  standard: StandardBody,
  skill: number,
  calls = standard.calls.length,
): MarkedTest {
  const [uniform, composure] = standard.majors as [StandardBody['majors'][number], StandardBody['majors'][number]]
  const stopAt = random.chance(STOPPED) ? random.integer(0, calls) : null
  const minors = standard.minors.map((minor) => ({ code: minor.code, trials: [], faults: [], readings: [] }) as Minor)
  const places = new Map(standard.minors.map(({ code }, index) => [code, index]))
  const third = minors.map(() => random.chance(THIRD_TRIAL))
  for (const { measure } of standard.calls.slice(0, stopAt ?? calls)) {
    const place = places.get(measure)!
    if (isDecided(minors[place]!, standard) && !third[place]) continue
    markTrial(random, standard, place, minors[place]!, skill)
  }
  const go = { mark: 'GO' as const, faults: [], note: null }
  const noGo = (major: typeof uniform, atCall: number) => ({
    code: major.code,
    mark: 'NO-GO' as const,
    atCall,
    faults: [random.pick(major.faults).code],
    note: null,
  })
  if (stopAt === null)
    return {
      majors: [
        { code: uniform.code, ...go },
        { code: composure.code, ...go },
      ],
      minors,
    }
  if (stopAt === 0) {
    return { majors: [noGo(uniform, 0), { code: composure.code, mark: null, faults: [], note: null }], minors }
  }
  return { majors: [{ code: uniform.code, ...go }, noGo(composure, stopAt)], minors }
}

function isDecided({ trials }: Minor, { rule }: StandardBody): boolean {
  const correct = trials.filter((mark) => mark === 'correct').length
  return correct >= rule.needed || trials.length - correct > rule.trials - rule.needed
}

function markTrial(random: Random, standard: StandardBody, place: number, minor: Minor, skill: number): void {
  const { faults, gauges } = standard.minors[place]!
  // The later half of the manual is the harder one.
  const difficulty = 0.12 * (place - (standard.minors.length - 1) / 2)
  const isCorrect = random.chance(1 / (1 + Math.exp(difficulty - skill)))
  minor.trials.push(isCorrect ? 'correct' : 'incorrect')
  const trial = minor.trials.length
  const gauge = gauges.length > 0 ? standard.gauges.find(({ code }) => code === random.pick(gauges)) : undefined
  const isOut = gauge !== undefined && !isCorrect && random.chance(OUT_OF_BAND)
  if (gauge && (isOut || random.chance(READ_GAUGE))) {
    minor.readings.push({ trial, gauge: gauge.code, value: readingOf(random, gauge, isOut), override: null })
  }
  if (isCorrect || isOut) return
  const found = random.shuffle(faults).slice(0, random.chance(TWO_FAULTS) ? 2 : 1)
  minor.faults.push(...found.map(({ code }) => ({ trial, code })))
}

function readingOf(random: Random, { min, max }: Gauge, isOut: boolean): string {
  const low = Math.ceil(Number(min ?? Number(max) - 10))
  const high = Math.floor(Number(max ?? Number(min) + 10))
  if (!isOut) return String(random.integer(low, high))
  const above = max !== null && (min === null || random.chance(0.5))
  return String(above ? high + random.integer(1, 4) : low - random.integer(1, 4))
}
