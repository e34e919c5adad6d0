import type { Random } from '../../../../seed/generate/random.ts'
import type { CandidateHistory, CountedTest } from '../../../../server/domain/ability/candidate-history.ts'
import { chanceAtLeast, goByTrial } from '../../../../server/domain/ability/count-of-go.ts'
import { gaussHermite } from '../../../../server/domain/ability/gauss-hermite.ts'
import type { MeasureLayout, VersionPlaces } from '../../../../server/domain/ability/measure-layout.ts'
import type { UnitFit } from '../../../../server/domain/ability/unit-fit.ts'

/** A made-up unit whose truth is known. Spreads, gains and severity in logits of a trial. */
export interface World {
  readonly name: string
  readonly candidates: number
  readonly graders: number
  readonly spread: UnitFit['spread']
  readonly gains: readonly [second: number, later: number, renewal: number]
  /** Ability grows by a random amount of this mean between tests of a candidate, beside what the kind of attempt brings. */
  readonly learning: number
  /** Severity of the first grader; the others are drawn. */
  readonly severe: number
  /** So many sponsors, whose candidates are better or worse by a number of this spread; the first's by `betterSponsor`. */
  readonly sponsors: number
  readonly sponsorSpread: number
  readonly betterSponsor: number
}

const AS_MODELLED: World = {
  name: 'as modelled',
  candidates: 200,
  graders: 10,
  spread: { candidate: 0.8, measure: 0.6, sheet: 0.4, grader: 0.3 },
  gains: [0.3, 0.5, 0.4],
  learning: 0,
  severe: 0,
  sponsors: 20,
  sponsorSpread: 0,
  betterSponsor: 0,
}

export const WORLDS: readonly World[] = [
  AS_MODELLED,
  { ...AS_MODELLED, name: 'learning between tests', learning: 0.3 },
  {
    ...AS_MODELLED,
    name: 'day effects only',
    spread: { candidate: 0, measure: 0, sheet: 0.7, grader: 0 },
    gains: [0, 0, 0],
  },
  { ...AS_MODELLED, name: 'a severe grader', spread: { ...AS_MODELLED.spread, grader: 0 }, severe: 1 },
  { ...AS_MODELLED, name: 'no grader differs', spread: { ...AS_MODELLED.spread, grader: 0 } },
  { ...AS_MODELLED, name: 'sponsors differ', sponsorSpread: 0.5 },
  { ...AS_MODELLED, name: 'a better sponsor', betterSponsor: 1 },
]

const EASE = [0.74, 0.37, 1.13, 1.59, 2.1, 1.38, 0.91, 0.75, 1.82, 2.44, 1.49, 0.44, 0.63]
const places = EASE.map((_, place) => place)
const VERSION: VersionPlaces = {
  codes: places.map((place) => `m${place}`),
  measures: places,
  majors: ['uniform', 'composure'],
  trials: 3,
  needed: 2,
  minimum: 11,
}
export const LAYOUT: MeasureLayout = { strengthOf: places, ofVersion: new Map([[1, VERSION]]) }
const NO_GO_OF_MAJOR = [0.03, 0.05]

/** A unit of a world: what is on record, and the candidate's own chance at each test, the day and the grader averaged over. */
export interface DrawnUnit {
  readonly histories: readonly CandidateHistory[]
  readonly trueChance: ReadonlyMap<string, number>
  /** What a forecaster who knew the truth of the unit would use. */
  readonly truth: UnitFit
}

/** Eighteen months of tests: one to four a candidate, a retest some weeks after a NO-GO, a renewal months after a GO. */
export function drawUnit(world: World, random: Random): DrawnUnit {
  const severities = Array.from({ length: world.graders }, (_, g) =>
    g === 0 && world.severe !== 0 ? world.severe : random.normal(0, world.spread.grader),
  )
  const sponsors = Array.from({ length: world.sponsors }, (_, s) =>
    s === 0 && world.betterSponsor !== 0 ? world.betterSponsor : random.normal(0, world.sponsorSpread),
  )
  const trueChance = new Map<string, number>()
  const histories = Array.from({ length: world.candidates }, (_, c): CandidateHistory => {
    let ability = random.normal(0, world.spread.candidate) + sponsors[c % sponsors.length]!
    const strengths = EASE.map(() => random.normal(0, world.spread.measure))
    const tests: CountedTest[] = []
    let [day, noGos] = [random.integer(0, 400), 0]
    const count = random.integer(1, 4)
    for (let i = 0; i < count && day < 540; i++) {
      const gain = i === 0 ? 0 : noGos === 0 ? world.gains[2] : noGos === 1 ? world.gains[0] : world.gains[1]
      if (i > 0) ability += world.learning * 2 * random.next()
      const logits = EASE.map((ease, m) => ease + gain + ability + strengths[m]!)
      const grader = random.integer(0, world.graders - 1)
      const id = `${c}/${i}`
      trueChance.set(id, ownChance(world, logits))
      const test = drawTest(random, logits, random.normal(0, world.spread.sheet) - severities[grader]!)
      tests.push({ id, graderId: `g${grader}`, day: dayOf(day), version: 1, ...test })
      noGos = test.passed ? 0 : noGos + 1
      day += test.passed ? random.integer(120, 240) : random.integer(10, 40)
    }
    return { candidateId: `c${c}`, tests, others: [] }
  })
  const byKind = <Value>(value: Value) => ({ first: value, second: value, later: value, renewal: value })
  const truth: UnitFit = {
    model: 2,
    sheets: 0,
    byPriors: false,
    ease: EASE,
    gains: world.gains,
    spread: { ...world.spread, candidate: Math.hypot(world.spread.candidate, world.sponsorSpread) },
    graders: Object.fromEntries(severities.map((severity, g) => [`g${g}`, { severity, variance: 0 }])),
    majors: Object.fromEntries(
      VERSION.majors.map((code, i) => [code, byKind({ chance: NO_GO_OF_MAJOR[i]!, variance: 0 })]),
    ),
    tests: byKind({ tests: 0, passes: 0 }),
  }
  return { histories, trueChance, truth }
}

const dayOf = (number: number): string =>
  new Date(Date.UTC(2025, 0, 1) + number * 86_400_000).toISOString().slice(0, 10)

function drawTest(random: Random, logits: readonly number[], shift: number) {
  const majors = NO_GO_OF_MAJOR.map((chance) => (random.chance(chance) ? 'N' : 'G'))
  const correct = logits.map((logit) => {
    const p = 1 / (1 + Math.exp(-logit - shift))
    return [1, 2, 3].filter(() => random.chance(p)).length
  })
  const minors = correct.map((count) => (count >= VERSION.needed ? 'G' : 'N'))
  const passed = !majors.includes('N') && minors.filter((mark) => mark === 'G').length >= VERSION.minimum
  return { passed, marks: [...majors, ...minors].join(''), correct, tried: correct.map(() => VERSION.trials) }
}

function ownChance({ spread }: World, logits: readonly number[]): number {
  const go = goByTrial(VERSION.trials, VERSION.needed)
  const rule = gaussHermite(15)
  const day = Math.hypot(spread.sheet, spread.grader)
  const room = new Float64Array(logits.length + 1)
  const minors = rule.points.reduce((sum, point, j) => {
    const chances = Float64Array.from(logits, (logit) => go(1 / (1 + Math.exp(-logit - day * point))))
    return sum + rule.weights[j]! * chanceAtLeast(chances, VERSION.minimum, room)
  }, 0)
  return NO_GO_OF_MAJOR.reduce((product, noGo) => product * (1 - noGo), minors)
}
