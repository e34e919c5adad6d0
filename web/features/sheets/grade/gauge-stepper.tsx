import { useId, useState } from 'react'
import type { Standard } from '#contract/standards/standards.ts'
import type { TrialNote } from '../../../domain/sheets/grading/running-sheet.ts'
import { READING } from '../../../domain/sheets/reading.ts'
import { Button } from '../../../ui/button.tsx'
import { perMinute } from './cadence.ts'
import { GaugeBand } from './gauge-band.tsx'
import { stepReading } from './step-reading.ts'
import { TapAlong } from './tap-along.tsx'

interface GaugeStepperProps {
  gauge: Standard['gauges'][number]
  reading: TrialNote['readings'][number] | undefined
  /** It was opened just now, so the number can be typed at once. */
  isAskedFor?: boolean
  onReading: (value: string | null) => void
}

/** One gauge: its band, on which a tap is a reading; plus and minus; a number to be typed; a cadence by tapping along. */
export function GaugeStepper({ gauge, reading, isAskedFor = false, onReading }: GaugeStepperProps) {
  const id = useId()
  const [typed, setTyped] = useState<string | null>(null)
  const [isTapping, setTapping] = useState(false)
  const value = typed ?? reading?.value ?? ''
  const isWrong = typed !== null && typed !== '' && !READING.test(typed)
  const take = (next: string) => {
    setTyped(null)
    onReading(next)
  }
  const step = (direction: 1 | -1) => take(stepReading(gauge, reading?.value ?? '', direction))
  return (
    <div className="gauge">
      <GaugeBand
        gauge={gauge}
        reading={reading}
        isWrong={isWrong}
        saidId={`${id}-said`}
        onTake={take}
        onType={() => document.getElementById(id)?.focus()}
      />
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
