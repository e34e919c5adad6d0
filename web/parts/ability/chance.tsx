import type { ListedForecast } from '#contract/ability/forecasts.ts'
import { formatChances, formatRestsOn } from '../../domain/ability/format-forecast.ts'
import './chance.css'

/** A forecast in a list: the chance with its limits, and what it rests on. Nothing where there is none for the reader. */
export function Chance({ forecast }: { forecast: ListedForecast | undefined }) {
  if (!forecast) return null
  return (
    <span className="chance">
      <span>{formatChances(forecast)}</span> <span className="muted small">{formatRestsOn(forecast)}</span>
    </span>
  )
}
