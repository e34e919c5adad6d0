import type { Standard } from '#contract/standards/standards.ts'
import { DateField } from '../../../ui/date-field.tsx'
import { SelectField, TextField } from '../../../ui/field.tsx'
import { formatClockChange } from '../../../words/format-times-asked.ts'
import type { Draft, Person } from './draft.ts'
import { parseClock } from './parse-clock.ts'
import { PersonField } from './person-field.tsx'
import type { HeadErrors } from './to-body.ts'

interface HeadFieldsProps {
  draft: Draft
  standards: readonly Standard[]
  standard: Standard | undefined
  errors: HeadErrors
  /** Whose clock the times are by. */
  timeZone: string
  sponsorHint?: string
  onChange: (change: Partial<Draft>) => void
  onStandard: (id: string) => void
  onCandidate: (person: Person | null, arms: readonly string[]) => void
  /** On to the marks: Enter in the last field goes there. */
  onDone: () => void
}

/** The head of a paper sheet. What the sheets of one pile share stands first and is kept for the next one. */
export function HeadFields(props: HeadFieldsProps) {
  const { draft, standards, standard, errors, timeZone, sponsorHint, onChange, onStandard, onCandidate, onDone } = props
  const amending = draft.amends !== null
  const clockHint = (value: string) => formatClockChange(draft.day, parseClock(value) ?? '', timeZone)
  return (
    <div className="enter-head">
      <SelectField
        label="Standard"
        className="enter-standard"
        error={errors.standard}
        disabled={amending}
        value={draft.standardId}
        onChange={(event) => onStandard(event.target.value)}
      >
        {draft.standardId === '' && <option value="">Choose</option>}
        {standards.map(({ id, title, version }) => (
          <option key={id} value={id}>
            {title}, version {version}
          </option>
        ))}
      </SelectField>
      <DateField label="Day" value={draft.day} onDay={(day) => onChange({ day })} />
      <PersonField
        label="Grader"
        person={draft.grader}
        error={errors.grader}
        onPerson={(grader) => onChange({ grader })}
      />
      <PersonField
        label="Candidate"
        className="enter-candidate"
        person={draft.candidate}
        error={errors.candidate}
        disabled={amending}
        autoFocus={!amending}
        onPerson={(person, soldier) => onCandidate(person, soldier?.arms ?? [])}
      />
      <PersonField
        label="Sponsor"
        className="enter-sponsor"
        person={draft.sponsor}
        error={errors.sponsor}
        hint={sponsorHint}
        onPerson={(sponsor) => onChange({ sponsor })}
      />
      {(standard?.arms.length ?? 0) > 0 && (
        <SelectField
          label="Arm"
          className="enter-short"
          error={errors.arm}
          value={draft.arm}
          onChange={(event) => onChange({ arm: event.target.value })}
        >
          {draft.arm === '' && <option value="">Choose</option>}
          {standard?.arms.map((arm) => (
            <option key={arm}>{arm}</option>
          ))}
        </SelectField>
      )}
      <ClockField
        label="Started"
        placeholder="0900"
        error={errors.start}
        hint={clockHint(draft.start)}
        value={draft.start}
        onValue={(start) => onChange({ start })}
      />
      <ClockField
        label="Finished"
        placeholder="0931"
        error={errors.finish}
        hint={clockHint(draft.finish)}
        value={draft.finish}
        onValue={(finish) => onChange({ finish })}
        onKeyDown={(event) => {
          if (event.key !== 'Enter' || event.ctrlKey) return
          event.preventDefault()
          onDone()
        }}
      />
    </div>
  )
}

interface ClockFieldProps extends Omit<React.ComponentProps<typeof TextField>, 'onChange' | 'onBlur'> {
  value: string
  onValue: (value: string) => void
}

/** A time as typed; once it is left, as a clock writes it. */
function ClockField({ onValue, ...field }: ClockFieldProps) {
  return (
    <TextField
      className="enter-short"
      inputMode="numeric"
      autoComplete="off"
      onChange={(event) => onValue(event.target.value)}
      onBlur={(event) => onValue(parseClock(event.target.value) ?? event.target.value)}
      {...field}
    />
  )
}
