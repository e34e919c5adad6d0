import { describe, expect, test } from 'vitest'
import { createRandom, type Random } from '../../seed/generate/random.ts'
import { mantelHaenszel } from '../../server/domain/statistics/association/mantel-haenszel.ts'
import { failingTogether } from '../../server/domain/statistics/proportions/failing-together.ts'
import { poolPairs } from '../../server/domain/tallies/pool-pairs.ts'

describe('Mantel and Haenszel', () => {
  // Admissions to Berkeley 1973, men and women by department: P. J. Bickel, E. A. Hammel & J. W. O'Connell (1975), Science
  // 187:398–404; figures of mantelhaen.test in R's own documentation (UCBAdmissions).
  const departments = [
    [512, 89, 313, 19],
    [353, 17, 207, 8],
    [120, 202, 205, 391],
    [138, 131, 279, 244],
    [53, 94, 138, 299],
    [22, 24, 351, 317],
  ].map(([a, b, c, d]) => ({ a: a!, b: b!, c: c!, d: d! }))

  test('give the published odds ratio and test of six departments', () => {
    const found = mantelHaenszel(departments)
    if (found.kind !== 'association') throw new Error('undefined')
    expect(found.oddsRatio).toBeCloseTo(0.9046968, 7)
    expect(found.interval!.low).toBeCloseTo(0.7719074, 7)
    expect(found.interval!.high).toBeCloseTo(1.0603298, 7)
    expect(found.chiSquare).toBeCloseTo(1.5246, 4)
    expect(found.p).toBeCloseTo(0.2169, 4)
    expect(found.corrected).toBeCloseTo(1.4269, 4)
    expect(found.isEnough).toBe(true)
  })

  test('take no notice of strata that say nothing, and have no figure without any other', () => {
    const silent = { a: 3, b: 4, c: 0, d: 0 }
    expect(mantelHaenszel([...departments, silent])).toEqual(mantelHaenszel(departments))
    expect(mantelHaenszel([silent, { a: 1, b: 0, c: 0, d: 0 }])).toEqual({ kind: 'undefined' })
  })
})

const logistic = (x: number) => 1 / (1 + Math.exp(-x))
const MINORS = Array.from({ length: 13 }, (_, i) => ({
  code: `m${String(i).padStart(2, '0')}`,
  gauges: [],
  faults: [],
}))
const definition = { rule: { trials: 3, needed: 2 }, majors: [], minors: MINORS, gauges: [] }

/**
 * Sheets drawn trial by trial: ability 0.8, strength in a measure 0.7, form 0.4, each measure its own ease; the first two share
 * `common` besides, in logits of a trial.
 */
function drawPairs(random: Random, sheets: number, common: number) {
  const normal = () => Math.sqrt(-2 * Math.log(1 - random.next())) * Math.cos(2 * Math.PI * random.next())
  const ease = MINORS.map(() => 0.6 + 0.3 * normal())
  const rows = Array.from({ length: sheets }, () => {
    const [ability, shared] = [0.8 * normal() + 0.4 * normal(), common * normal()]
    const marks = ease.map((easy, m) => {
      const chance = logistic(easy + ability + 0.7 * normal() + (m < 2 ? shared : 0))
      return [0, 1, 2].filter(() => random.next() < chance).length >= 2 ? 'G' : 'N'
    })
    return { marks: marks.join(''), sheets: 1, of: { standard: 's', version: 1, definition } }
  })
  return failingTogether(poolPairs(rows).get('s')!)
}

describe('pairs of measures once ability is held fixed', () => {
  test('of which none is tied but by ability: hardly ever is one called', () => {
    const random = createRandom(61)
    const units = 40
    let [called, raw] = [0, 0]
    for (let unit = 0; unit < units; unit++) {
      const pairs = drawPairs(random, 900, 0)
      expect(pairs.filter(({ verdict }) => verdict === 'undefined')).toEqual([])
      if (pairs.some(({ verdict }) => verdict === 'together' || verdict === 'apart')) called += 1
      // Ability alone ties every pair: without holding it fixed nearly all would be called.
      raw += pairs.filter(({ counts: { both, firstOnly, secondOnly, neither } }) => {
        const found = mantelHaenszel([{ a: both, b: firstOnly, c: secondOnly, d: neither }])
        return found.kind === 'association' && found.p < 0.05
      }).length
    }
    console.info(`No pair tied: one called in ${called} of ${units} units; ${raw / units} of 78 pairs without strata`)
    expect(raw / units).toBeGreaterThan(60)
    // 5 % and three standard errors.
    expect(called / units).toBeLessThan(0.05 + 3 * Math.sqrt((0.05 * 0.95) / units))
  })

  test('of which one is tied besides: that one is found', () => {
    const random = createRandom(62)
    const units = 10
    let found = 0
    for (let unit = 0; unit < units; unit++) {
      const [first] = drawPairs(random, 900, 1)
      if (first!.first === 'm00' && first!.second === 'm01' && first!.verdict === 'together') found += 1
    }
    console.info(`One pair tied: found in ${found} of ${units} units`)
    expect(found / units).toBeGreaterThan(0.5)
  })
})
