import { TrialBars } from '../../../charts/trial-bars.tsx'
import { isDecidedBefore, isMarkable } from '../../../domain/sheets/grading/calls.ts'
import { trialAt } from '../../../domain/sheets/grading/running-sheet.ts'
import { Button } from '../../../ui/button.tsx'
import { Panel } from '../../../ui/panel.tsx'
import { formatTrial } from './call-words.ts'
import { CeaseButton } from './cease-button.tsx'
import type { PanelProps } from './panel-props.ts'

/** All calls in order; a tap shows a call again, to change what was marked or noted. */
export function Overview({ standard, scored, calls, sheet, onTap, onClose, onCease }: PanelProps) {
  const show = (call: number) => {
    onClose()
    void onTap({ kind: 'show', call })
  }
  return (
    <Panel title="All calls" onClose={onClose} aside={<CeaseButton onCease={onCease} />}>
      <ol className="overview">
        {calls.map((_, call) => {
          const note = trialAt(sheet, call)
          const isLeftOut = note.notCalled && note.mark === null
          const canLeaveOut = note.mark === null && !isLeftOut && isDecidedBefore(scored, sheet, call)
          return (
            // biome-ignore lint/suspicious/noArrayIndexKey: a call is its place
            <li key={call}>
              <Button
                aria-current={call === sheet.at ? 'step' : undefined}
                autoFocus={call === sheet.at}
                disabled={note.mark === null && !isMarkable(scored, sheet, call)}
                onClick={() => show(call)}
              >
                <span className="overview-number">{call + 1}</span>
                <TrialBars marks={[note.mark]} trials={1} height={22} />
                <span className="overview-name">{formatTrial(standard, calls, call)}</span>
                <span className="muted">
                  {note.mark ?? (isLeftOut ? 'left out' : '')}
                  {note.faults.length > 0 && `, ${note.faults.length} noted`}
                </span>
              </Button>
              {canLeaveOut && (
                <Button kind="quiet" onClick={() => onTap({ kind: 'leave-out', call })}>
                  Leave out: decided already
                </Button>
              )}
              {isLeftOut && (
                <Button kind="quiet" onClick={() => onTap({ kind: 'clear', call })}>
                  Call it after all
                </Button>
              )}
            </li>
          )
        })}
      </ol>
    </Panel>
  )
}
