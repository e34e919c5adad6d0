import { majorOf } from '../../../domain/sheets/grading/running-sheet.ts'
import { Button } from '../../../ui/button.tsx'
import { TextField } from '../../../ui/field.tsx'
import { Panel } from '../../../ui/panel.tsx'
import { CeaseButton } from './cease-button.tsx'
import type { PanelProps } from './panel-props.ts'

/** A major measure: what it asks for, its faults, and the question whether the test really ends here. */
export function MajorPanel({ standard, sheet, major, onTap, onClose, onCease }: PanelProps & { major: string }) {
  const definition = standard.majors.find(({ code }) => code === major)!
  const { mark, faults, note } = majorOf(sheet, major)
  const judge = (next: 'NO-GO' | null) => {
    onClose()
    void onTap({ kind: 'major', major, mark: next })
  }
  return (
    <Panel title={definition.title} onClose={onClose} closeText="Back" aside={<CeaseButton onCease={onCease} />}>
      <ul className="call-look">
        {definition.criteria.map((criterion) => (
          <li key={criterion}>{criterion}</li>
        ))}
      </ul>
      <ul className="call-faults" aria-label="Faults">
        {definition.faults.map(({ code, title }) => (
          <li key={code}>
            <Button
              aria-pressed={faults.includes(code)}
              onClick={() => onTap({ kind: 'major-fault', major, fault: code })}
            >
              {title}
            </Button>
          </li>
        ))}
      </ul>
      <TextField
        label="Note"
        autoComplete="off"
        maxLength={400}
        defaultValue={note}
        onBlur={(event) => onTap({ kind: 'major-note', major, note: event.target.value })}
      />
      <div className="panel-buttons">
        {mark === 'NO-GO' ? (
          <Button kind="main" onClick={() => judge(null)}>
            Take the NO-GO back: the test goes on
          </Button>
        ) : (
          <>
            <p>
              A NO-GO here ends the test at once. What was not called is not tested, which is no failure. Is it a NO-GO?
            </p>
            <Button onClick={() => judge('NO-GO')}>NO-GO: end the test</Button>
            <Button kind="main" onClick={onClose}>
              It stays GO
            </Button>
          </>
        )}
      </div>
    </Panel>
  )
}
