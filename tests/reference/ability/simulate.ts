import { judgeWorld } from './support/judge-world.ts'
import { WORLDS } from './support/worlds.ts'

/*
 * npm run simulate [units a world]: what the model makes of units whose truth is known, in full. Wanted: Brier score within 0.01 of the
 * truth's and below both baselines, slope 0.85 to 1.15, coverage 92 to 98 %, nobody flagged in 95 % of the units where no grader
 * differs, the severe one in half of those where one does.
 */
const units = Number(process.argv[2] ?? 20)
const digits = (value: number | null | undefined) => (value == null ? '–' : value.toFixed(3))
console.log(
  'world | tests | Brier | of the truth | by kind | by last | slope (95 %) | of the truth | intercept | coverage | any flagged | first flagged',
)
for (const [i, world] of WORLDS.entries()) {
  const { check, checkOfTruth, coverage, anyFlagged, severeFlagged } = judgeWorld(world, units, 100 + i)
  const { n, score, byKind, byLast, calibration } = check
  const figures = [score.brier, checkOfTruth.score.brier, byKind.brier, byLast.brier].map(digits)
  const slopes = [calibration.slope, checkOfTruth.calibration.slope].map(
    (slope) => `${digits(slope?.value)} (${digits(slope?.low)} to ${digits(slope?.high)})`,
  )
  const rest = [calibration.intercept?.value, coverage, anyFlagged, severeFlagged].map(digits)
  console.log([world.name, n, ...figures, ...slopes, ...rest].join(' | '))
}
