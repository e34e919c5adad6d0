import { useState } from 'react'
import { Button } from '../../ui/button.tsx'
import { counted } from '../../words/format-number.ts'
import type { FaultNoted } from './weak-spots.ts'
import './fault-list.css'

const SHOWN = 8

interface FaultListProps {
  faults: readonly FaultNoted[]
  measureTitle: (measure: string) => string
  faultTitle: (measure: string, fault: string) => string
}

/** Faults by how often they were noted, one tick a trial. */
export function FaultList({ faults, measureTitle, faultTitle }: FaultListProps) {
  const [all, setAll] = useState(false)
  return (
    <>
      <ul className="fault-list">
        {faults.slice(0, all ? faults.length : SHOWN).map(({ measure, fault, times }) => (
          <li key={`${measure} ${fault}`}>
            <span>
              <b>{faultTitle(measure, fault)}</b> <span className="muted">{measureTitle(measure)}</span>
            </span>
            <span className="fault-times">{counted(times, 'trial')}</span>
          </li>
        ))}
      </ul>
      {!all && faults.length > SHOWN && (
        <Button kind="quiet" className="no-print" onClick={() => setAll(true)}>
          {counted(faults.length - SHOWN, 'more fault')}
        </Button>
      )}
    </>
  )
}
