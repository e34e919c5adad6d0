import { Link } from 'wouter'
import { Button } from '../../../ui/button.tsx'
import { Field } from '../../../ui/field.tsx'
import { Panel } from '../../../ui/panel.tsx'
import { CeaseButton } from './cease-button.tsx'
import { MoreSettings } from './more-settings.tsx'
import type { PanelProps } from './panel-props.ts'
import type { Settings } from './settings.ts'

interface MoreProps extends PanelProps {
  /** Null: the sheet is no sheet of its own and is not left. */
  leaveTo: string | null
  /** To put a walk-in right; nothing of somebody booked. */
  walkIn?: React.ReactNode
  settings: Settings
  onSettings: (settings: Settings) => void
  onVoid: () => void
}

/** What is needed now and then: notes, ending void, how one grades on this device, the keys, the way out. */
export function More({ sheet, onTap, onClose, onCease, settings, onSettings, leaveTo, onVoid, walkIn }: MoreProps) {
  return (
    <Panel title="More" onClose={onClose} aside={<CeaseButton onCease={onCease} />} className="more">
      {walkIn}
      <Field label="Notes on the sheet">
        {(id) => (
          <textarea
            id={id}
            rows={3}
            maxLength={4000}
            defaultValue={sheet.notes}
            onBlur={(event) => onTap({ kind: 'notes', notes: event.target.value })}
          />
        )}
      </Field>
      <MoreSettings settings={settings} onSettings={onSettings} />
      {!sheet.void && (
        <div className="panel-buttons">
          <Button onClick={onVoid}>End the test void …</Button>
        </div>
      )}
      {leaveTo !== null && (
        <p className="more-leave">
          <Link href={leaveTo}>Leave the sheet for now</Link>; it stays on this phone at this call.
        </p>
      )}
      <Button onClick={onClose}>Back to the sheet</Button>
    </Panel>
  )
}
