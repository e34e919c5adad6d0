import { useId, useState } from 'react'
import type { Standard } from '#contract/standards/standards.ts'
import { placeInBand } from '#scoring/band.ts'
import { ReadingBand } from '../../../charts/reading-band.tsx'
import { readingScale } from '../../../charts/reading-scale.ts'
import type { TrialNote } from '../../../domain/sheets/grading/running-sheet.ts'
import { READING } from '../../../domain/sheets/reading.ts'
import { sayBand } from '../../../domain/standards/say-band.ts'
import { Button } from '../../../ui/button.tsx'
import { stepReading } from './step-reading.ts'

interface GaugeStepperProps {
  gauge: Standard['gauges'][number]
  reading: TrialNote['readings'][number] | undefined
  onReading: (value: string | null) => void
}

const limit = (text: string | null | undefined): number | null => (text == null ? null : Number(text))

/** One gauge: its band, the reading as a dot on it, and plus and minus; a number can be typed as well. */
export function GaugeStepper({ gauge, reading, onReading }: GaugeStepperProps) {
  const id = useId()
  const [typed, setTyped] = useState<string | null>(null)
  const value = typed ?? reading?.value ?? ''
  const isWrong = typed !== null && typed !== '' && !READING.test(typed)
  const place = reading ? placeInBand(gauge, reading.value) : 'inside'
  const min = limit(gauge.min)
  const max = limit(gauge.max)
  const { from, to } = readingScale([min, max], reading ? [Number(reading.value)] : [])
  const step = (direction: 1 | -1) => {
    setTyped(null)
    onReading(stepReading(gauge, reading?.value ?? '', direction))
  }
  const said = place === 'inside' ? 'in the band' : `too ${place}, not ${sayBand(gauge)}`
  return (
    <div className="gauge">
      <div className="gauge-what">
        <label htmlFor={id}>{gauge.title}</label>{' '}
        <span id={`${id}-said`} className={place === 'inside' && !isWrong ? 'muted' : 'gauge-out'}>
          {isWrong
            ? 'up to four digits and decimals'
            : place === 'inside'
              ? sayBand(gauge)
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
          label={reading ? `${reading.value} ${gauge.unit}, ${said}` : `no reading; ${sayBand(gauge)}`}
        />
      </div>
      <div className="gauge-step">
        <Button aria-label={`${gauge.title}: less`} onClick={() => step(-1)}>
          −
        </Button>
        <input
          id={id}
          data-reading
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
    </div>
  )
}
