import { Button } from '../../ui/button.tsx'
import { DateField } from '../../ui/date-field.tsx'
import { TextField } from '../../ui/field.tsx'
import { TimesAsked } from '../../ui/times-asked.tsx'
import { today } from '../../words/today.ts'
import { blankRehearsal, type DraftRehearsal } from './draft.ts'

interface RehearsalFieldsProps {
  rehearsals: readonly DraftRehearsal[]
  /** Of the ceremony; a new rehearsal begins with it. */
  day: string
  zone: string
  onChange: (rehearsals: DraftRehearsal[]) => void
  wrongAt: (pointer: string) => string | null
}

/** The rehearsals, a line each. */
export function RehearsalFields({ rehearsals, day, zone, onChange, wrongAt }: RehearsalFieldsProps) {
  const change = (at: number, changes: Partial<DraftRehearsal>) =>
    onChange(rehearsals.map((one, index) => (index === at ? { ...one, ...changes } : one)))
  return (
    <>
      <ol className="editor-lines">
        {rehearsals.map((one, index) => (
          <li key={one.key}>
            <fieldset className="rehearsal-line">
              <legend className="out-of-sight">Rehearsal {index + 1}</legend>
              <DateField label="Day" value={one.day} required onDay={(text) => change(index, { day: text })} />
              <TextField
                label="From"
                type="time"
                required
                value={one.from}
                onChange={(event) => change(index, { from: event.target.value })}
              />
              <TextField
                label="To"
                type="time"
                required
                error={wrongAt(`/rehearsals/${index}/endsAt`)}
                value={one.to}
                onChange={(event) => change(index, { to: event.target.value })}
              />
              <TextField
                label="Where"
                className="rehearsal-place"
                value={one.place}
                onChange={(event) => change(index, { place: event.target.value })}
              />
              <Button onClick={() => onChange(rehearsals.toSpliced(index, 1))}>
                Remove<span className="out-of-sight"> rehearsal {index + 1}</span>
              </Button>
              <TimesAsked day={one.day} from={one.from} to={one.to} zone={zone} today={today(zone)} />
            </fieldset>
          </li>
        ))}
      </ol>
      <Button onClick={() => onChange([...rehearsals, blankRehearsal(day)])}>Add a rehearsal</Button>
    </>
  )
}
