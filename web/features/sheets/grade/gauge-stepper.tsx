import { useId, useState } from 'react'
import type { Standard } from '#contract/standards/standards.ts'
import { placeInBand } from '#scoring/band.ts'
import { ReadingBand } from '../../../charts/reading-band.tsx'
import { readingScale } from '../../../charts/reading-scale.ts'
import type { TrialNote } from '../../../domain/sheets/grading/running-sheet.ts'
import { READING } from '../../../domain/sheets/reading.ts'
import { formatBand } from '../../../domain/standards/format-band.ts'
import { Button } from '../../../ui/button.tsx'
import { perMinute } from './cadence.ts'
import { readingAt, stepReading } from './step-reading.ts'
import { TapAlong } from './tap-along.tsx'

interface GaugeStepperProps {
  gauge: Standard['gauges'][number]
  reading: TrialNote['readings'][number] | undefined
  /** It was opened just now, so the number can be typed at once. */
  isAskedFor?: boolean
  onReading: (value: string | null) => void
}

const limit = (text: string | null | undefined): number | null => (text == null ? null : Number(text))

/** One gauge: its band, on which a tap is a reading; plus and minus; a number to be typed; a cadence by tapping along. */
export function GaugeStepper({ gauge, reading, isAskedFor = false, onReading }: GaugeStepperProps) {
  const id = useId()
  const [typed, setTyped] = useState<string | null>(null)
  const [isTapping, setTapping] = useState(false)
  const value = typed ?? reading?.value ?? ''
  const isWrong = typed !== null && typed !== '' && !READING.test(typed)
  const place = reading ? placeInBand(gauge, reading.value) : 'inside'
  const min = limit(gauge.min)
  const max = limit(gauge.max)
  // As wide again on both sides of the band, so that what lies outside can be tapped as well.
  const air = min !== null && max !== null ? [min - (max - min) / 2, max + (max - min) / 2] : []
  const { from, to } = readingScale([min, max, ...air], reading ? [Number(reading.value)] : [])
  const take = (next: string) => {
    setTyped(null)
    onReading(next)
  }
  const step = (direction: 1 | -1) => take(stepReading(gauge, reading?.value ?? '', direction))
  const said = place === 'inside' ? 'in the band' : `too ${place}, not ${formatBand(gauge)}`
  return (
    <div className="gauge">
      <button
        type="button"
        className="gauge-band"
        onClick={(event) => {
          const box = event.currentTarget.getBoundingClientRect()
          // By keyboard there is no place on the band; the field beside it takes the number.
          if (event.detail === 0) return document.getElementById(id)?.focus()
          take(readingAt(gauge, from + ((event.clientX - box.left) / box.width) * (to - from)))
        }}
      >
        <span>{gauge.title}</span>{' '}
        <span id={`${id}-said`} className={place === 'inside' && !isWrong ? 'muted' : 'gauge-out'}>
          {isWrong
            ? 'up to four digits and decimals'
            : place === 'inside'
              ? formatBand(gauge)
              : reading?.override == null
                ? said
                : 'mark stands'}
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
      <div className="gauge-step">
        <Button aria-label={`${gauge.title}: less`} onClick={() => step(-1)}>
          −
        </Button>
        <input
          id={id}
          data-reading
          // biome-ignore lint/a11y/noAutofocus: whoever opened it wants to read it
          autoFocus={isAskedFor && reading === undefined}
          aria-label={gauge.title}
          inputMode="decimal"
          autoComplete="off"
          placeholder="–"
          aria-invalid={isWrong || undefined}
          aria-describedby={`${id}-said`}
          value={value}
          onChange={(event) => {
            const next = event.target.value.replace(',', '.').trim()
            setTyped(next)
            if (next === '') onReading(null)
            else if (READING.test(next)) onReading(next)
          }}
          onBlur={() => setTyped(null)}
          onKeyDown={(event) => {
            if (event.key === 'Enter' || event.key === 'Escape') event.currentTarget.blur()
            if (event.key === 'ArrowUp' || event.key === 'ArrowDown') {
              event.preventDefault()
              step(event.key === 'ArrowUp' ? 1 : -1)
            }
          }}
        />
        <Button aria-label={`${gauge.title}: more`} onClick={() => step(1)}>
          +
        </Button>
      </div>
      {perMinute(gauge.unit) && (
        <Button className="gauge-along" onClick={() => setTapping(true)}>
          Tap along with the steps
        </Button>
      )}
      {isTapping && <TapAlong gauge={gauge} onTake={take} onClose={() => setTapping(false)} />}
    </div>
  )
}
