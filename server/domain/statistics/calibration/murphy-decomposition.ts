import { type Forecast, requireForecasts } from './forecast.ts'

export type ForecastGroup = { probability: number; n: number; happened: number }
export type MurphyDecomposition =
  | { kind: 'no-data' }
  | {
      kind: 'parts'
      reliability: number
      resolution: number
      uncertainty: number
      skill: number | null
      groups: ForecastGroup[]
    }

/**
 * The Brier score in three parts: reliability − resolution + uncertainty.
 *
 * Over groups of equal forecasts p with observed share ō, and the share of all o: reliability Σ n (p − ō)²/N (small:
 * what is forecast comes true as often as said), resolution Σ n (ō − o)²/N (large: forecasts tell cases apart),
 * uncertainty o (1 − o).
 * Source: A. H. Murphy (1973), *J. Appl. Meteorol.* 12:595–600. The sum is the Brier score exactly, because only
 * equal forecasts are grouped; round forecasts beforehand where groups would be too small. Out: groups by rising
 * forecast; `skill` = 1 − Brier/uncertainty, null where every case had one outcome.
 */
export function murphyDecomposition(forecasts: readonly Forecast[]): MurphyDecomposition {
  requireForecasts(forecasts)
  const n = forecasts.length
  if (n === 0) return { kind: 'no-data' }
  const byProbability = new Map<number, ForecastGroup>()
  for (const { probability, happened } of forecasts) {
    const group = byProbability.get(probability) ?? { probability, n: 0, happened: 0 }
    byProbability.set(probability, { probability, n: group.n + 1, happened: group.happened + Number(happened) })
  }
  const groups = [...byProbability.values()].sort((x, y) => x.probability - y.probability)
  const share = groups.reduce((sum, group) => sum + group.happened, 0) / n
  const mean = (part: (group: ForecastGroup) => number) =>
    groups.reduce((sum, group) => sum + group.n * part(group), 0) / n
  const reliability = mean((group) => (group.probability - group.happened / group.n) ** 2)
  const resolution = mean((group) => (group.happened / group.n - share) ** 2)
  const uncertainty = share * (1 - share)
  const skill = uncertainty === 0 ? null : (resolution - reliability) / uncertainty
  return { kind: 'parts', reliability, resolution, uncertainty, skill, groups }
}
