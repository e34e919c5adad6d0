import type { Standard } from '#contract/standards/standards.ts'
import { Button } from '../../../ui/button.tsx'
import { type Cell, faultsAt, isMajor } from './cells.ts'
import type { Draft } from './draft.ts'
import { FaultNumbersField } from './fault-numbers-field.tsx'
import { FAULT_KEYS } from './key-marking.ts'
import { cellKey } from './place-problems.ts'
import { ReadingFields } from './reading-fields.tsx'
import './mark-panel.css'

interface MarkPanelProps {
  standard: Standard
  draft: Draft
  target: Cell | null
  onFault: (fault: string) => void
  onFaults: (codes: readonly string[]) => void
  onReading: (gauge: string, value: string, override: string | null) => void
  onBack: () => void
}

/** What can be noted on the trial marked last: its faults, each with its letter, and its readings. */
export function MarkPanel({ standard, draft, target, onFault, onFaults, onReading, onBack }: MarkPanelProps) {
  const measure =
    target && (isMajor(target) ? standard.majors : standard.minors).find(({ code }) => code === target.code)
  if (!target || !measure) {
    return <p className="panel-empty muted">Mark a trial; its faults and readings can be noted here right after.</p>
  }
  const noted = faultsAt(draft, target)
  return (
    <div className="panel">
      <p className="panel-target">
        <b>{measure.title}</b>
        {!isMajor(target) && `, trial ${target.trial}`}
      </p>
      {measure.faults.length > 0 && (
        <FaultNumbersField
          key={cellKey(target)}
          faults={measure.faults}
          noted={noted}
          onFaults={onFaults}
          onBack={onBack}
        />
      )}
      {measure.faults.length > 0 && (
        <ul className="panel-faults" aria-label="Faults">
          {measure.faults.map(({ code, title }, index) => (
            <li key={code}>
              <Button
                className="panel-fault"
                tabIndex={-1}
                aria-pressed={noted.includes(code)}
                onClick={() => onFault(code)}
              >
                {FAULT_KEYS[index] && <kbd>{FAULT_KEYS[index]}</kbd>}
                <span>
                  {index + 1} {title}
                </span>
              </Button>
            </li>
          ))}
        </ul>
      )}
      {!isMajor(target) && (
        <ReadingFields standard={standard} draft={draft} cell={target} onReading={onReading} onBack={onBack} />
      )}
    </div>
  )
}
