import type { ListedForecast } from '#contract/ability/forecasts.ts'
import { sayChances, sayRestsOn } from '../../domain/ability/say-forecast.ts'
import './chance.css'

/** A forecast in a list: the chance with its limits, and what it rests on. Nothing where there is none for the reader. */
export function Chance({ forecast }: { forecast: ListedForecast | undefined }) {
  if (!forecast) return null
  return (
    <span className="chance">
      <span>{sayChances(forecast)}</span> <span className="muted small">{sayRestsOn(forecast)}</span>
    </span>
  )
}
