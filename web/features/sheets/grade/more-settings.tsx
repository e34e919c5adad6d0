import { SelectField } from '../../../ui/field.tsx'
import { chooseTheme, THEMES, type ThemeChoice, themeChosen } from '../../../ui/theme.ts'
import { KEY_WORDS } from './marking-keys.ts'
import { OwnKeys } from './own-keys.tsx'
import type { Settings } from './settings.ts'

interface MoreSettingsProps {
  settings: Settings
  onSettings: (settings: Settings) => void
}

/** How one grades on this device: the thumb, readings, the theme, the keys. */
export function MoreSettings({ settings, onSettings }: MoreSettingsProps) {
  return (
    <>
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
    </>
  )
}
