import { useEffect, useRef, useState } from 'react'
import type { Standard } from '#contract/standards/standards.ts'
import { formatBand } from '../../../domain/standards/format-band.ts'
import { Button } from '../../../ui/button.tsx'
import { Panel } from '../../../ui/panel.tsx'
import { counted } from '../../../words/format-number.ts'
import { cadenceOf, countedTaps, FEWEST_TAPS } from './cadence.ts'
import { startBeat } from './metronome.ts'

interface TapAlongProps {
  gauge: Standard['gauges'][number]
  onTake: (value: string) => void
  onClose: () => void
}

/** The rate the band asks for: its target, else its middle, else its one limit. */
const asked = ({ target, min, max }: Standard['gauges'][number]): number =>
  target != null
    ? Number(target)
    : min != null && max != null
      ? (Number(min) + Number(max)) / 2
      : Number(min ?? max ?? 120)

/** A cadence measured by tapping along with the steps, and a quiet beat to compare with. */
export function TapAlong({ gauge, onTake, onClose }: TapAlongProps) {
  const [taps, setTaps] = useState<readonly number[]>([])
  const [isBeating, setBeating] = useState(false)
  const rate = cadenceOf(taps)
  const dot = useRef<HTMLSpanElement>(null)
  useEffect(() => (isBeating ? startBeat(asked(gauge), dot.current) : undefined), [isBeating, gauge])
  return (
    <Panel title={gauge.title} onClose={onClose}>
      <p>
        Tap once at every step: {formatBand(gauge)} {gauge.unit}.
      </p>
      <Button
        className="tap-pad"
        onPointerDown={({ timeStamp }) => setTaps(countedTaps([...taps, timeStamp]))}
        onKeyDown={({ key, repeat, timeStamp }) => {
          if ((key === ' ' || key === 'Enter') && !repeat) setTaps(countedTaps([...taps, timeStamp]))
        }}
      >
        <b aria-live="polite">{rate ?? '–'}</b>
        <span>
          {taps.length < FEWEST_TAPS
            ? `${counted(FEWEST_TAPS - taps.length, 'more tap', 'more taps')}`
            : `from ${taps.length} taps`}
        </span>
      </Button>
      <div className="panel-buttons">
        <Button
          kind="main"
          disabled={rate === null}
          onClick={() => {
            onTake(String(rate))
            onClose()
          }}
        >
          {rate === null ? 'Take the reading' : `Take ${rate}`}
        </Button>
        <Button aria-pressed={isBeating} onClick={() => setBeating(!isBeating)}>
          <span ref={dot} className="beat" aria-hidden="true" />
          {isBeating ? 'Stop the beat' : `Quiet beat, ${asked(gauge)} a minute`}
        </Button>
      </div>
    </Panel>
  )
}
