import { useState } from 'react'
import { isOutside } from '../../../domain/sheets/grading/apply-event.ts'
import { trialAt } from '../../../domain/sheets/grading/running-sheet.ts'
import { formatBand } from '../../../domain/standards/format-band.ts'
import { Button } from '../../../ui/button.tsx'
import { TextField } from '../../../ui/field.tsx'
import { Panel } from '../../../ui/panel.tsx'
import { CeaseButton } from './cease-button.tsx'
import type { PanelProps } from './panel-props.ts'

const USUAL = ['Ground uneven', 'Gauge slipped', 'Moved by the wind']

/** A reading says incorrect and the grader correct: the mark stands only with a reason. */
export function OverridePanel({ standard, scored, sheet, onTap, onClose, onCease }: PanelProps) {
  const [reason, setReason] = useState('')
  const { at } = sheet
  const outside = trialAt(sheet, at).readings.filter((reading) => isOutside(scored, reading))
  const override = (why: string) => {
    onClose()
    void onTap({ kind: 'override', call: at, reason: why })
  }
  return (
    <Panel title="The reading says incorrect" onClose={onClose} aside={<CeaseButton onCease={onCease} />}>
      <ul className="call-look">
        {outside.map((reading) => {
          const gauge = standard.gauges.find(({ code }) => code === reading.gauge)!
          return (
            <li key={reading.gauge}>
              {gauge.title}: {reading.value} {gauge.unit}, not {formatBand(gauge)}
            </li>
          )
        })}
      </ul>
      <p>Was it read wrongly? Go back and correct it. Else say why the trial is correct nevertheless:</p>
      <ul className="call-faults">
        {USUAL.map((why) => (
          <li key={why}>
            <Button onClick={() => override(why)}>{why}</Button>
          </li>
        ))}
      </ul>
      <form
        className="panel-buttons"
        onSubmit={(event) => {
          event.preventDefault()
          if (reason.trim() !== '') override(reason)
        }}
      >
        <TextField
          label="Another reason"
          autoComplete="off"
          maxLength={400}
          value={reason}
          onChange={(event) => setReason(event.target.value)}
        />
        <Button type="submit" disabled={reason.trim() === ''}>
          Mark correct
        </Button>
      </form>
    </Panel>
  )
}
