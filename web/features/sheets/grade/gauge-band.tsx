import type { Standard } from '#contract/standards/standards.ts'
import { placeInBand } from '#scoring/band.ts'
import { ReadingBand } from '../../../charts/reading-band.tsx'
import { readingScale } from '../../../charts/reading-scale.ts'
import type { TrialNote } from '../../../domain/sheets/grading/running-sheet.ts'
import { formatBand } from '../../../domain/standards/format-band.ts'
import { readingAt } from './step-reading.ts'

interface GaugeBandProps {
  gauge: Standard['gauges'][number]
  reading: TrialNote['readings'][number] | undefined
  /** What is typed is no number that can be taken. */
  isWrong: boolean
  /** The id of the words about the reading. */
  saidId: string
  onTake: (value: string) => void
  /** The band was pressed by keyboard: there is no place on it; the number is typed. */
  onType: () => void
}

const limit = (text: string | null | undefined): number | null => (text == null ? null : Number(text))

/** The band of a gauge with its reading; a tap on it is a reading. */
export function GaugeBand({ gauge, reading, isWrong, saidId, onTake, onType }: GaugeBandProps) {
  const place = reading ? placeInBand(gauge, reading.value) : 'inside'
  const min = limit(gauge.min)
  const max = limit(gauge.max)
  // As wide again on both sides of the band, so that what lies outside can be tapped as well.
  const air = min !== null && max !== null ? [min - (max - min) / 2, max + (max - min) / 2] : []
  const { from, to } = readingScale([min, max, ...air], reading ? [Number(reading.value)] : [])
  const said = place === 'inside' ? 'in the band' : `too ${place}, not ${formatBand(gauge)}`
  const words = () => {
    if (isWrong) return 'up to four digits and decimals'
    if (place === 'inside') return formatBand(gauge)
    return reading?.override == null ? said : 'mark stands'
  }
  return (
    <button
      type="button"
      className="gauge-band"
      onClick={(event) => {
        if (event.detail === 0) return onType()
        const box = event.currentTarget.getBoundingClientRect()
        onTake(readingAt(gauge, from + ((event.clientX - box.left) / box.width) * (to - from)))
      }}
    >
      <span>{gauge.title}</span>{' '}
      <span id={saidId} className={place === 'inside' && !isWrong ? 'muted' : 'gauge-out'}>
        {words()}
      </span>
      <ReadingBand
        min={min}
        max={max}
        from={from}
        to={to}
        readings={
          reading
            ? [{ value: Number(reading.value), inside: place === 'inside', overridden: reading.override !== null }]
            : []
        }
        label={reading ? `${reading.value} ${gauge.unit}, ${said}` : `no reading; ${formatBand(gauge)}`}
      />
    </button>
  )
}
