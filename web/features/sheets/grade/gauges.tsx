import { useState } from 'react'
import type { Standard } from '#contract/standards/standards.ts'
import type { TrialNote } from '../../../domain/sheets/grading/running-sheet.ts'
import { formatBand } from '../../../domain/standards/format-band.ts'
import { Button } from '../../../ui/button.tsx'
import { GaugeStepper } from './gauge-stepper.tsx'

interface GaugesProps {
  gauges: Standard['gauges']
  note: TrialNote
  /** Whoever reads on every trial has them open; else one opens when it is asked for, or read already. */
  areOpen: boolean
  onReading: (gauge: string, value: string | null) => void
}

/** What can be measured at this call. */
export function Gauges({ gauges, note, areOpen, onReading }: GaugesProps) {
  const [opened, setOpened] = useState<readonly string[]>([])
  const readingOf = (code: string) => note.readings.find(({ gauge }) => gauge === code)
  const isOpen = ({ code }: { code: string }) => areOpen || opened.includes(code) || readingOf(code) !== undefined
  const closed = gauges.filter((gauge) => !isOpen(gauge))
  return (
    <>
      {gauges.filter(isOpen).map((gauge) => (
        <GaugeStepper
          key={gauge.code}
          gauge={gauge}
          reading={readingOf(gauge.code)}
          isAskedFor={opened.includes(gauge.code)}
          onReading={(value) => onReading(gauge.code, value)}
        />
      ))}
      {closed.length > 0 && (
        <ul className="gauges" aria-label="Measure">
          {closed.map(({ code, title, ...band }) => (
            <li key={code}>
              <Button data-measure onClick={() => setOpened([...opened, code])}>
                <span className="muted">measure</span> {title}, {formatBand(band)}
              </Button>
            </li>
          ))}
        </ul>
      )}
    </>
  )
}
