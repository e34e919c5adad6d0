import type { AbilityData } from '../../../../server/domain/ability/ability-data.ts'
import { gaussHermite } from '../../../../server/domain/ability/gauss-hermite.ts'
import { minimise } from '../../../../server/domain/ability/minimise.ts'

/**
 * The fit of ease, gains and the candidates' spread alone, with ability integrated by adaptive Gauss–Hermite quadrature: an
 * integration of any accuracy to hold Laplace's approximation against. J. C. Pinheiro & D. M. Bates (1995), *J. Comput.
 * Graph. Stat.* 4:12–35.
 */
export function fitByQuadrature(data: AbilityData, nodes: number) {
  const { design } = data
  const [measures, gains] = [design.strengthOf.length, design.gains]
  const rule = gaussHermite(nodes)
  const modes = new Float64Array(design.candidates)

  /** Log-density of a candidate's trials at an ability z (in spreads), its first two slopes, and residuals into `into`. */
  function at(candidate: number, z: number, x: Float64Array, into: Float64Array | null, weight: number) {
    const spread = Math.exp(x[measures + gains]!)
    let [value, slope, curve] = [-(z * z) / 2, -z, 1]
    for (let sheet = data.sheetStart[candidate]!; sheet < data.sheetStart[candidate + 1]!; sheet++) {
      for (let cell = data.cellStart[sheet]!; cell < data.cellStart[sheet + 1]!; cell++) {
        let logit = x[data.measure[cell]!]! + spread * z
        for (let k = 0; k < gains; k++) logit += x[measures + k]! * data.gain[sheet * gains + k]!
        const p = 1 / (1 + Math.exp(-logit))
        const [y, n] = [data.correct[cell]!, data.tried[cell]!]
        value += y * Math.log(p) + (n - y) * Math.log1p(-p) + logChoose(n, y)
        slope += spread * (y - n * p)
        curve += spread * spread * n * p * (1 - p)
        if (!into) continue
        into[data.measure[cell]!]! += weight * (y - n * p)
        for (let k = 0; k < gains; k++) into[measures + k]! += weight * (y - n * p) * data.gain[sheet * gains + k]!
        into[measures + gains]! += weight * (y - n * p) * spread * z
      }
    }
    return { value, slope, curve }
  }

  function evaluate(x: Float64Array) {
    const gradient = new Float64Array(x.length)
    let total = 0
    for (let candidate = 0; candidate < design.candidates; candidate++) {
      let here = at(candidate, modes[candidate]!, x, null, 0)
      for (let step = 0; step < 50 && here.slope ** 2 / here.curve > 1e-16; step++) {
        modes[candidate]! += here.slope / here.curve
        here = at(candidate, modes[candidate]!, x, null, 0)
      }
      const width = 1 / Math.sqrt(here.curve)
      const points = rule.points.map((t) => modes[candidate]! + width * t)
      const logs = points.map(
        (z, k) => at(candidate, z, x, null, 0).value + rule.points[k]! ** 2 / 2 + Math.log(rule.weights[k]!),
      )
      const most = Math.max(...logs)
      const sum = logs.reduce((all, log) => all + Math.exp(log - most), 0)
      total += most + Math.log(sum) + Math.log(width)
      points.forEach((z, k) => {
        at(candidate, z, x, gradient, Math.exp(logs[k]! - most) / sum)
      })
    }
    return { value: -total, gradient: gradient.map((g) => -g) }
  }

  const start = new Float64Array(measures + gains + 1)
  const scale = start.map((_, i) => (i < measures + gains ? 1 / (1 + data.measure.length / measures / 4) : 0.01))
  const { at: best, value, converged } = minimise(evaluate, start, scale, 1e-9)
  const spread = Math.exp(best[measures + gains]!)
  return {
    ease: [...best.subarray(0, measures)],
    gains: [...best.subarray(measures, measures + gains)],
    spread,
    modes: [...modes].map((z) => z * spread),
    logLikelihood: -value,
    converged,
  }
}

function logChoose(n: number, k: number): number {
  let log = 0
  for (let i = 1; i <= k; i++) log += Math.log((n - k + i) / i)
  return log
}
