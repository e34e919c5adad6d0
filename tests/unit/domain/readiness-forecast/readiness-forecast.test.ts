import { describe, expect, test } from 'vitest'
import { createRandom, type Random } from '../../../../seed/generate/random.ts'
import { addDays } from '../../../../server/domain/calendar/plain-date.ts'
import { certificationStatus, openRetests, progressOn } from '../../../../server/domain/certification/status.ts'
import type { Attempt, Certification, History } from '../../../../server/domain/certification/types.ts'
import { certifiedChance, type TestToCome } from '../../../../server/domain/readiness-forecast/certified-chance.ts'
import { countForecast } from '../../../../server/domain/readiness-forecast/count-forecast.ts'
import { type SupposedSoldier, supposeTests } from '../../../../server/domain/readiness-forecast/suppose-tests.ts'

const TODAY = '2026-06-30'
const WORLDS = 2_000

const terms = (sequence: 'any' | 'in-order', reviewAfter: number) => ({
  effectiveFrom: '2020-01-01',
  sequence,
  windowDays: 30,
  validityMonths: 3,
  waitDays: 5,
  dueDays: 30,
  reviewAfter,
})

interface Case {
  readonly history: History
  readonly tests: readonly TestToCome[]
  readonly weights: ReadonlyMap<string, readonly number[]>
}

function attempt(standard: string, day: string, outcome: 'GO' | 'NO-GO', nth: number): Attempt {
  return {
    id: `${standard}${day}${nth}`,
    standard,
    version: 1,
    arm: null,
    day,
    outcome,
    finishedAt: Date.parse(day) + nth,
  }
}

function drawCase(random: Random, standards: readonly string[]): Case {
  const attempts = Array.from({ length: random.integer(0, 4) }, (_, nth) =>
    attempt(random.pick(standards), addDays(TODAY, -random.integer(1, 110)), random.pick(['GO', 'GO', 'NO-GO']), nth),
  )
  const points = new Map(standards.map((standard) => [standard, random.integer(1, 3)]))
  const chances = (n: number) => Array.from({ length: n }, () => random.pick([0.1, 0.3, 0.5, 0.8, 0.95, 1]))
  const days = Array.from({ length: random.integer(0, 4) }, () => random.integer(0, 35)).sort((a, b) => a - b)
  const tests = days.map((day): TestToCome => {
    const standard = random.pick(standards)
    const n = points.get(standard)!
    return { standard, day: addDays(TODAY, day), version: 1, pass: [chances(n), chances(n)] }
  })
  const weights = new Map([...points].map(([standard, n]) => [standard, weightsOf(random, n)]))
  const suspensions = random.chance(0.1) ? [{ from: addDays(TODAY, random.integer(-9, 9)), lift: null }] : []
  return { history: { attempts, awards: [], withdrawals: [], suspensions, reviews: [] }, tests, weights }
}

function weightsOf(random: Random, n: number): number[] {
  const raw = Array.from({ length: n }, () => random.next() + 0.1)
  const sum = raw.reduce((a, b) => a + b, 0)
  return raw.map((each) => each / sum)
}

/** Every draw of abilities and every way the tests can go, each judged as a history of sheets. */
function bruteForce(certification: Certification, { history, tests, weights }: Case, day: string): number {
  const draws = certification.standards.reduce<{ chance: number; point: Record<string, number> }[]>(
    (all, standard) =>
      all.flatMap(({ chance, point }) =>
        (weights.get(standard) ?? [1]).map((weight, i) => ({
          chance: chance * weight,
          point: { ...point, [standard]: i },
        })),
      ),
    [{ chance: 1, point: {} }],
  )
  const go = (point: Record<string, number>, at: number, soFar: History, noGos: Record<string, number>): number => {
    const next = tests[at]
    if (!next || next.day > day) {
      return certificationStatus(certification, [], soFar, day).status === 'certified' ? 1 : 0
    }
    if (!isWorthIt(certification, soFar, next)) return go(point, at + 1, soFar, noGos)
    const failed = noGos[next.standard] ?? 0
    const chance = next.pass[Math.min(failed, 1)]![point[next.standard]!]!
    const after = (outcome: 'GO' | 'NO-GO'): History => ({
      ...soFar,
      attempts: [...soFar.attempts, attempt(next.standard, next.day, outcome, 100 + at)],
    })
    return (
      chance * go(point, at + 1, after('GO'), noGos) +
      (1 - chance) * go(point, at + 1, after('NO-GO'), { ...noGos, [next.standard]: failed + 1 })
    )
  }
  return draws.reduce((sum, { chance, point }) => sum + chance * go(point, 0, history, {}), 0)
}

function isWorthIt(certification: Certification, history: History, { standard, day }: TestToCome): boolean {
  const status = certificationStatus(certification, [], history, day)
  const kept = status.toward.map((one) => one.standard)
  const retest = openRetests(certification, [], history, day).find((one) => one.standard === standard)
  if (retest && (retest.needsReview || retest.earliest > day)) return false
  const inForce = status.validThrough !== null && day <= status.validThrough
  if (!retest && (kept.includes(standard) || (inForce && day <= addDays(status.awardedOn!, 30)))) return false
  const [first] = certification.standards
  return certification.terms[0]!.sequence === 'any' || standard === first || kept.includes(first!)
}

describe('the chance of one soldier', () => {
  test(`is that of every way the tests can go, in ${WORLDS} drawn cases`, () => {
    const random = createRandom(15)
    let between = 0
    for (let world = 0; world < WORLDS; world++) {
      const standards = random.chance(0.4) ? ['standing'] : ['standing', 'marching']
      const sequence = random.pick(['any', 'in-order'] as const)
      const certification: Certification = {
        code: 'sword',
        standards,
        arms: [],
        terms: [terms(sequence, random.integer(1, 3))],
      }
      const one = drawCase(random, standards)
      const day = addDays(TODAY, random.integer(0, 40))
      const progress = progressOn(certification, [], one.history, TODAY)
      const { suspensions, reviews } = one.history
      const chance = certifiedChance(certification, [], { ...one, progress, suspensions, reviews }, day)
      expect(chance).toBeCloseTo(bruteForce(certification, one, day), 12)
      if (chance > 0 && chance < 1) between += 1
    }
    expect(between).toBeGreaterThan(WORLDS / 8)
  })

  test('a second try after a NO-GO is of the same soldier: less likely to be passed than by a stranger', () => {
    const certification: Certification = { code: 'rifle', standards: ['rifle'], arms: [], terms: [terms('any', 9)] }
    const none = { attempts: [], awards: [], withdrawals: [], suspensions: [], reviews: [] }
    const soldier = (points: number[], weights: number[]) => ({
      progress: progressOn(certification, [], none, TODAY),
      ...none,
      tests: [0, 10].map((day) => ({ standard: 'rifle', day: addDays(TODAY, day), version: 1, pass: [points] })),
      weights: new Map([['rifle', weights]]),
    })
    const on = addDays(TODAY, 20)
    // By hand: half pass nine in ten tests, half one in ten. 1 − (0.1² + 0.9²) / 2 = 0.59; strangers 1 − 0.5² = 0.75.
    expect(certifiedChance(certification, [], soldier([0.9, 0.1], [0.5, 0.5]), on)).toBeCloseTo(0.59, 12)
    expect(certifiedChance(certification, [], soldier([0.5], [1]), on)).toBeCloseTo(0.75, 12)
  })
})

describe('how many of them', () => {
  test('is the distribution over every combination of soldiers', () => {
    const random = createRandom(16)
    for (let world = 0; world < WORLDS; world++) {
      const chances = Array.from({ length: random.integer(0, 8) }, () =>
        random.pick([0, 1, random.next(), random.next()]),
      )
      const exactly = new Array<number>(chances.length + 1).fill(0)
      for (let set = 0; set < 2 ** chances.length; set++) {
        const each = chances.map((chance, i) => ((set >> i) & 1 ? chance : 1 - chance))
        const n = chances.filter((_, i) => (set >> i) & 1).length
        exactly[n]! += each.reduce((product, p) => product * p, 1)
      }
      const { required, expected, low, high, atLeast } = countForecast(chances)
      const sum = (from: number, to: number) => exactly.slice(from, to).reduce((a, b) => a + b, 0)
      expect(required).toBe(chances.length)
      expect(expected).toBeCloseTo(
        exactly.reduce((mean, p, n) => mean + n * p, 0),
        12,
      )
      atLeast.forEach((chance, n) => {
        expect(chance).toBeCloseTo(sum(n, exactly.length), 12)
      })
      expect(sum(0, low)).toBeLessThanOrEqual(0.1 + 1e-12)
      expect(sum(0, low + 1)).toBeGreaterThan(0.1 - 1e-12)
      expect(sum(high + 1, exactly.length)).toBeLessThanOrEqual(0.1 + 1e-12)
      expect(sum(high, exactly.length)).toBeGreaterThan(0.1 - 1e-12)
    }
  })

  // scipy 1.17.1: poisson_binom([i / 41 for i in 1 … 40]): ppf([.1, .9]), sf(n - 1).
  test('forty unequal chances, against another implementation', () => {
    const { expected, low, high, atLeast } = countForecast(Array.from({ length: 40 }, (_, i) => (i + 1) / 41))
    expect(expected).toBeCloseTo(20, 12)
    expect([low, high]).toEqual([17, 23])
    expect(atLeast[15]).toBeCloseTo(0.9830626515745927, 12)
    expect(atLeast[18]).toBeCloseTo(0.8314836470315201, 12)
    expect(atLeast[21]).toBeCloseTo(0.42394965679721186, 12)
    expect(atLeast[25]).toBeCloseTo(0.04158725256286655, 12)
  })

  // scipy 1.17.1: binom.ppf([.1, .9], 48, .85), binom.sf(40, 48, .85).
  test('equal chances give the binomial', () => {
    const { expected, low, high, atLeast } = countForecast(new Array(48).fill(0.85))
    expect(expected).toBeCloseTo(40.8, 12)
    expect([low, high]).toEqual([38, 44])
    expect(atLeast[41]).toBeCloseTo(0.566744497786414, 12)
  })
})

describe('what is supposed', () => {
  const soldier = (soldierId: string, more: Partial<SupposedSoldier> = {}): SupposedSoldier => ({
    soldierId,
    tests: [],
    open: [{ standard: 'rifle', earliest: null, due: null }],
    isAway: () => false,
    ...more,
  })
  const booked = (id: string, at: number) => ({
    id,
    testDayId: 'd',
    graderId: id === '1' ? 'g' : 'h',
    standard: 'rifle',
    day: '2026-07-02',
    at,
  })
  const none = { more: [], fewer: [], away: [], planned: [] }
  const more = (slots: number) => ({ ...none, more: [{ day: '2026-07-05', standard: 'rifle', slots }] })

  test('slots more go to who is due first, not before it is allowed, nor to who is away or booked', () => {
    const soldiers = [
      soldier('a'),
      soldier('b', { open: [{ standard: 'rifle', earliest: null, due: '2026-07-20' }] }),
      soldier('c', { open: [{ standard: 'rifle', earliest: '2026-07-06', due: '2026-07-10' }] }),
      soldier('d', { isAway: (day) => day === '2026-07-05' }),
      soldier('e', { tests: [booked('1', 1)] }),
      soldier('f', { open: [] }),
    ]
    const who = (slots: number) => {
      const { tests, free } = supposeTests(soldiers, more(slots))
      return {
        free,
        who: soldiers.flatMap(({ soldierId }) =>
          tests.get(soldierId)!.some(({ day }) => day === '2026-07-05') ? soldierId : [],
        ),
      }
    }
    expect(who(1)).toEqual({ free: 0, who: ['b'] })
    expect(who(2)).toEqual({ free: 0, who: ['a', 'b'] })
    expect(who(9)).toEqual({ free: 7, who: ['a', 'b'] })
  })

  test('slots fewer take the last bookings of the day, and a grader away all of theirs', () => {
    const soldiers = [soldier('a', { tests: [booked('1', 1)] }), soldier('b', { tests: [booked('2', 2)] })]
    const left = (supposed: object) => {
      const { tests } = supposeTests(soldiers, { ...none, ...supposed })
      return [...tests].flatMap(([id, own]) => (own.length > 0 ? id : []))
    }
    expect(left({})).toEqual(['a', 'b'])
    expect(left({ fewer: [{ testDayId: 'd', slots: 1 }] })).toEqual(['a'])
    expect(left({ fewer: [{ testDayId: 'd', slots: 5 }] })).toEqual([])
    expect(left({ away: ['g'] })).toEqual(['b'])
  })
  test('what a plan would book counts, but not for who is away or has that test booked by now', () => {
    const soldiers = [
      soldier('a'),
      soldier('b', { tests: [booked('1', 1)] }),
      soldier('c', { isAway: (day) => day === '2026-07-03' }),
      soldier('d', { tests: [booked('2', 2)] }),
      soldier('e', { tests: [booked('3', 3)] }),
    ]
    const test = { ...booked('p', 9), day: '2026-07-03' }
    const planned = [
      { soldierId: 'a', movedId: null, test },
      { soldierId: 'b', movedId: '1', test },
      { soldierId: 'c', movedId: null, test },
      { soldierId: 'd', movedId: null, test },
      { soldierId: 'e', movedId: '3', test: null },
    ]
    const days = (supposed: object) => {
      const { tests } = supposeTests(soldiers, { ...none, planned, ...supposed })
      return [...tests].map(([id, own]) => [id, ...own.map(({ day }) => day)])
    }
    expect(days({})).toEqual([['a', '2026-07-03'], ['b', '2026-07-03'], ['c'], ['d', '2026-07-02'], ['e']])
    expect(days({ away: ['h'] })).toEqual([['a'], ['b'], ['c'], ['d'], ['e']])
  })
})
