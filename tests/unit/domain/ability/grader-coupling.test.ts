import { expect, test } from 'vitest'
import { createRandom } from '../../../../seed/generate/random.ts'
import { type AbilityData, packSheets } from '../../../../server/domain/ability/ability-data.ts'
import { startModes } from '../../../../server/domain/ability/find-modes.ts'
import { fitAbility } from '../../../../server/domain/ability/fit-ability.ts'
import { graderBlocks } from '../../../../server/domain/ability/grader-blocks.ts'
import { GraderCoupling } from '../../../../server/domain/ability/grader-coupling.ts'
import { MarginalLikelihood } from '../../../../server/domain/ability/marginal-likelihood.ts'

const MEASURES = 4
const GRADERS = 12

/** Units of three graders each; now and then a candidate is judged in another unit. */
function draw(candidates: number, seed: number): AbilityData {
  const random = createRandom(seed)
  const severity = Array.from({ length: GRADERS }, () => random.normal(0, 0.5))
  const sheets = Array.from({ length: candidates }, (_, candidate) => {
    const ability = random.normal(0, 0.8)
    return [0, 1].map(() => {
      const home = candidate % 4
      const unit = random.chance(0.1) ? random.integer(0, 3) : home
      const grader = 3 * unit + random.integer(0, 2)
      const chance = 1 / (1 + Math.exp(-0.8 - ability + severity[grader]!))
      const correct = Array.from({ length: MEASURES }, () => [1, 2, 3].filter(() => random.chance(chance)).length)
      const measures = correct.map((_, m) => m)
      return { candidate, grader, gains: [], measures, correct, tried: measures.map(() => 3) }
    })
  })
  return packSheets({ candidates, graders: GRADERS, gains: 0, strengthOf: [0, 1, 2, 3] }, sheets.flat())
}

test('blocks hold those who judge the same candidates, and no more than they may', () => {
  const { blockOf, placeIn, sizes } = graderBlocks(draw(400, 3), 3)
  expect(sizes).toEqual([3, 3, 3, 3])
  for (let j = 0; j < GRADERS; j++) expect(blockOf[j]).toBe(blockOf[3 * Math.floor(j / 3)])
  expect(new Set(Array.from(blockOf, (block, j) => `${block}/${placeIn[j]}`)).size).toBe(GRADERS)
})

test('a system is solved with all that lies between the blocks', () => {
  const data = draw(60, 4)
  const [whole, parted] = [new GraderCoupling(data, true), new GraderCoupling(data, true, 3)]
  for (const coupling of [whole, parted]) {
    coupling.reset(new Float64Array(GRADERS))
    for (let c = 0; c < data.design.candidates; c++) {
      coupling.add(0.5, data.grader, data.sheetStart[c]!, 2, Float64Array.of(2, -0.9, -0.9, 2))
    }
    coupling.invert()
  }
  const asked = Float64Array.from({ length: GRADERS }, (_, j) => Math.sin(j + 1))
  const exact = whole.solve(asked)
  for (const [j, value] of parted.solve(asked).entries()) expect(value).toBeCloseTo(exact[j]!, 8)
})

test('parted into blocks the likelihood is nearly that of all graders together, and its slope is its slope', () => {
  const data = draw(200, 5)
  const at = [0.7, 0.8, 0.9, 0.6, Math.log(0.8), Math.log(0.3), Math.log(0.2), Math.log(0.5)]
  const evaluate = (x: readonly number[], largest?: number) =>
    new MarginalLikelihood(data, true, largest).evaluate(
      {
        ease: x.slice(0, 4),
        gains: [],
        spread: {
          candidate: Math.exp(x[4]!),
          measure: Math.exp(x[5]!),
          sheet: Math.exp(x[6]!),
          grader: Math.exp(x[7]!),
        },
      },
      startModes(data),
    )
  const [whole, parted] = [evaluate(at), evaluate(at, 3)]
  expect(Math.abs(whole.value - parted.value)).toBeLessThan(0.5)
  const slope = [...parted.ease, ...Object.values(parted.spread)]
  slope.forEach((value, i) => {
    const [up, down] = [1e-4, -1e-4].map(
      (h) =>
        evaluate(
          at.map((each, j) => (i === j ? each + h : each)),
          3,
        ).value,
    )
    expect(Math.abs(value - (up! - down!) / 2e-4), `number ${i}`).toBeLessThan(2e-3)
  })
})

test('very many sheets are fitted from a sample on, to where all of them lead', () => {
  const data = draw(6_100, 6)
  expect(data.source.length).toBeGreaterThan(12_000)
  const fit = fitAbility(data)
  expect(fit.converged).toBe(true)
  const at = new MarginalLikelihood(data, true).evaluate(fit.parameters, startModes(data))
  // A slope counts in standard errors: that of an ease is some hundredth here.
  for (const slope of at.ease) expect(Math.abs(slope) * 0.02).toBeLessThan(0.05)
  expect(fit.parameters.spread.candidate).toBeGreaterThan(0.75)
  expect(fit.parameters.spread.candidate).toBeLessThan(0.85)
})
