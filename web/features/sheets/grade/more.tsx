import { Link } from 'wouter'
import { Button } from '../../../ui/button.tsx'
import { Field, SelectField } from '../../../ui/field.tsx'
import { Panel } from '../../../ui/panel.tsx'
import { chooseTheme, THEMES, type ThemeChoice, themeChosen } from '../../../ui/theme.ts'
import { CeaseButton } from './cease-button.tsx'
import { KEY_WORDS } from './marking-keys.ts'
import { OwnKeys } from './own-keys.tsx'
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
      <h3>On this phone</h3>
      <div className="more-settings">
        <SelectField
          label="Marking thumb"
          value={settings.hand}
          onChange={(event) => onSettings({ ...settings, hand: event.target.value === 'left' ? 'left' : 'right' })}
        >
          <option value="right">right</option>
          <option value="left">left</option>
        </SelectField>
        <SelectField
          label="Readings"
          value={settings.readings}
          onChange={(event) =>
            onSettings({ ...settings, readings: event.target.value === 'in doubt' ? 'in doubt' : 'every trial' })
          }
        >
          <option value="in doubt">where in doubt</option>
          <option value="every trial">on every trial</option>
        </SelectField>
        <SelectField
          label="Theme"
          defaultValue={themeChosen()}
          onChange={(event) => chooseTheme(event.target.value as ThemeChoice)}
        >
          {THEMES.map(({ choice, text }) => (
            <option key={choice} value={choice}>
              {text}
            </option>
          ))}
        </SelectField>
        <label className="choice">
          <input
            type="checkbox"
            checked={settings.vibrate}
            onChange={(event) => onSettings({ ...settings, vibrate: event.target.checked })}
          />
          Vibrate at each mark
        </label>
        <label className="choice">
          <input
            type="checkbox"
            checked={settings.keys}
            onChange={(event) => onSettings({ ...settings, keys: event.target.checked })}
          />
          Single keys mark and note
        </label>
      </div>
      {settings.keys && (
        <dl className="grade-keys">
          {KEY_WORDS.map(([keys, what]) => (
            <div key={what}>
              <dt>
                {keys.map((key) => (
                  <kbd key={key}>{key}</kbd>
                ))}
              </dt>
              <dd>{what}</dd>
            </div>
          ))}
        </dl>
      )}
      <OwnKeys own={settings.own} onOwn={(own) => onSettings({ ...settings, own })} />
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
