import { useState } from 'react'
import type { SheetScore } from '#scoring/types.ts'
import { TrialBars } from '../../../charts/trial-bars.tsx'
import { formatScoreSoFar } from '../../../domain/sheets/format-score.ts'
import { Button } from '../../../ui/button.tsx'
import './touch-pad.css'

interface TouchPadProps {
  score: SheetScore
  onKey: (key: string) => void
  /** Faults and readings of the trial just marked. */
  children: React.ReactNode
}

/** The keys under the thumb, always in reach; "correct" is the larger one. Faults and readings open above them. */
export function TouchPad({ score, onKey, children }: TouchPadProps) {
  const [open, setOpen] = useState(false)
  return (
    <div className="touch-pad">
      {open && (
        <div id="touch-notes" className="touch-notes">
          {children}
        </div>
      )}
      <p className="touch-score">
        <b>{score.go}</b> GO <b>{score.noGo}</b> NO-GO <span>{formatScoreSoFar(score)}</span>
      </p>
      <div className="touch-keys">
        <Button aria-expanded={open} aria-controls="touch-notes" onClick={() => setOpen(!open)}>
          Faults
        </Button>
        <Button onClick={() => onKey('.')}>Blank</Button>
        <Button onClick={() => onKey('0')}>
          <TrialBars marks={['incorrect']} trials={1} height={24} />
          Incorrect
        </Button>
        <Button kind="main" onClick={() => onKey('1')}>
          <TrialBars marks={['correct']} trials={1} height={24} />
          Correct
        </Button>
      </div>
    </div>
  )
}
