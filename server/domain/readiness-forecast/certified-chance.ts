import type { PlainDate } from '../calendar/plain-date.ts'
import { addDays } from '../calendar/plain-date.ts'
import { advance, type Progress } from '../certification/progress.ts'
import { retestsOf, statusOf } from '../certification/status.ts'
import { termsOn } from '../certification/terms-on.ts'
import type { Break, Certification, History } from '../certification/types.ts'
import { NO_WORD } from '../certification/words.ts'

/** A test a soldier is to take. */
export interface TestToCome {
  readonly standard: string
  readonly day: PlainDate
  readonly version: number
  /**
   * The chance of a GO at each point of what is known of the soldier's ability in the standard, by how many of the tests to
   * come in it were NO-GO before; the last list also holds for more of them.
   */
  readonly pass: readonly ArrayLike<number>[]
}

/** What is known of one soldier and one certification. */
interface SoldierAhead {
  /** After all that has happened. */
  readonly progress: Progress
  readonly suspensions: History['suspensions']
  readonly reviews: History['reviews']
  /** In the order in which they are taken. */
  readonly tests: readonly TestToCome[]
  /** By standard, the weights of the points; one without them has a single point. */
  readonly weights: ReadonlyMap<string, ArrayLike<number>>
}

/**
 * The chance that a soldier is certified on a day, given the tests to come until then: over every way they can go, each by
 * the rules of certification, as if the sheets had been taken.
 *
 * Tests of one standard share the soldier's ability: after each, its points weigh as the outcome says. Tests of different
 * standards are independent given what is known of the soldier. A test whose sheet would be held (too early, a review or an
 * earlier standard missing) or that is not needed by then changes nothing. An award that waits for a commander, now or after
 * one of the tests, is taken as signed by then. Nothing else happens: no other test, no new suspension, no lift.
 */
export function certifiedChance(
  certification: Certification,
  breaks: readonly Break[],
  soldier: SoldierAhead,
  day: PlainDate,
): number {
  const tests = soldier.tests.filter((test) => test.day <= day)

  const isCertified = (progress: Progress) =>
    statusOf(certification, breaks, asSigned(progress), soldier.suspensions, day).status === 'certified'

  const from = (at: number, progress: Progress, branch: Branch): number => {
    const test = tests[at]
    if (!test) return isCertified(progress) ? 1 : 0
    if (!counts(certification, breaks, soldier.reviews, progress, test)) return from(at + 1, progress, branch)
    const noGos = branch.noGos.get(test.standard) ?? 0
    const chances = test.pass[Math.min(noGos, test.pass.length - 1)]!
    const weights = branch.weights.get(test.standard) ?? [1]
    const { chance, go, noGo } = split(weights, chances)
    const after = (outcome: 'GO' | 'NO-GO', left: ArrayLike<number>): number => {
      const next = advance(certification, breaks, progress, {
        kind: 'attempt',
        day: test.day,
        attempt: taken(test, outcome),
        word: NO_WORD,
      })
      return from(at + 1, next, {
        weights: new Map([...branch.weights, [test.standard, left]]),
        noGos: new Map([...branch.noGos, [test.standard, noGos + Number(outcome === 'NO-GO')]]),
      })
    }
    return (chance > 0 ? chance * after('GO', go) : 0) + (chance < 1 ? (1 - chance) * after('NO-GO', noGo) : 0)
  }
  return from(0, soldier.progress, { weights: soldier.weights, noGos: new Map() })
}

/** The same with the latest award signed. */
const asSigned = (progress: Progress): Progress =>
  progress.award === null
    ? progress
    : { ...progress, award: { ...progress.award, inForceFrom: progress.award.awardedOn } }

interface Branch {
  readonly weights: ReadonlyMap<string, ArrayLike<number>>
  readonly noGos: ReadonlyMap<string, number>
}

/** The chance of a GO over the points, and how the points weigh after a GO and after a NO-GO. */
function split(weights: ArrayLike<number>, chances: ArrayLike<number>) {
  const go = new Float64Array(weights.length)
  const noGo = new Float64Array(weights.length)
  let [passed, all] = [0, 0]
  for (let i = 0; i < weights.length; i++) {
    go[i] = weights[i]! * chances[i]!
    noGo[i] = weights[i]! * (1 - chances[i]!)
    passed += go[i]!
    all += weights[i]!
  }
  return { chance: passed / all, go, noGo }
}

/** Whether a sheet of the test would count, and is needed still: neither kept nor lately earned already. */
function counts(
  certification: Certification,
  breaks: readonly Break[],
  reviews: History['reviews'],
  progress: Progress,
  { standard, day }: TestToCome,
): boolean {
  const { sequence, windowDays } = termsOn(certification.terms, day)
  const { toward } = statusOf(certification, breaks, progress, [], day)
  const isKept = (code: string) => toward.some((go) => go.standard === code)
  const retest = retestsOf(progress, reviews, day).find((one) => one.standard === standard)
  if (retest) {
    if (retest.needsReview || day < retest.earliest) return false
  } else {
    const { award } = progress
    const isFresh = award !== null && day <= award.validThrough && day <= addDays(award.awardedOn, windowDays)
    if (isFresh || (isKept(standard) && !certification.standards.every(isKept))) return false
  }
  const before =
    sequence === 'in-order' ? certification.standards.slice(0, certification.standards.indexOf(standard)) : []
  return before.every(isKept)
}

const taken = ({ standard, version, day }: TestToCome, outcome: 'GO' | 'NO-GO') => ({
  id: `${standard} ${day}`,
  standard,
  version,
  arm: null,
  finishedAt: Date.parse(day),
  day,
  outcome,
})
