import { expect, test } from 'vitest'
import { createRandom } from '../../../../seed/generate/random.ts'
import { packSheets } from '../../../../server/domain/ability/ability-data.ts'
import { startModes } from '../../../../server/domain/ability/find-modes.ts'
import { MarginalLikelihood } from '../../../../server/domain/ability/marginal-likelihood.ts'

const random = createRandom(11)
const measures = [0, 1, 2, 3]
const data = packSheets(
  { candidates: 8, graders: 3, gains: 2, strengthOf: [0, 1, 2, 2] },
  Array.from({ length: 20 }, (_, i) => ({
    candidate: i % 7, // The eighth has no sheet.
    grader: i % 5 === 0 ? -1 : i % 3,
    gains: [i > 6 ? 1 : 0, i > 13 ? 1 : 0],
    measures,
    correct: measures.map(() => random.integer(0, 3)),
    tried: measures.map((m) => (i === 4 && m > 1 ? 0 : 3)),
  })).map((sheet) => ({ ...sheet, correct: sheet.correct.map((right, m) => Math.min(right, sheet.tried[m]!)) })),
)

// Against central differences of the function itself; the second measure of a strength has an ease of its own.
test.each([true, false])('the slope is the slope (graders: %s)', (hasGraders) => {
  const likelihood = new MarginalLikelihood(data, hasGraders)
  const at = [0.4, 0.9, -0.2, 1.1, 0.3, 0.5, Math.log(0.8), Math.log(0.6), Math.log(0.5), Math.log(0.4)]
  const evaluate = (x: readonly number[]) =>
    likelihood.evaluate(
      {
        ease: x.slice(0, 4),
        gains: x.slice(4, 6),
        spread: {
          candidate: Math.exp(x[6]!),
          measure: Math.exp(x[7]!),
          sheet: Math.exp(x[8]!),
          grader: hasGraders ? Math.exp(x[9]!) : 0,
        },
      },
      startModes(data),
    )
  const { ease, gains, spread } = evaluate(at)
  const slope = [...ease, ...gains, spread.candidate, spread.measure, spread.sheet, spread.grader]
  const count = hasGraders ? 10 : 9
  for (let i = 0; i < count; i++) {
    const [up, down] = [1e-4, -1e-4].map((h) => evaluate(at.map((x, j) => (i === j ? x + h : x))).value)
    expect(Math.abs(slope[i]! - (up! - down!) / 2e-4), `number ${i}`).toBeLessThan(2e-4)
  }
})
