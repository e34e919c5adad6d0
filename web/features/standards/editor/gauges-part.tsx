import type { StandardBody } from '#contract/standards/standards.ts'
import {
  addGauge,
  changeGauge,
  faultsForGauge,
  readWith,
  removeGauge,
} from '../../../domain/standards/edits/gauge-edits.ts'
import { Button } from '../../../ui/button.tsx'
import { SelectField, TextField } from '../../../ui/field.tsx'
import { AddByTitle } from './add-by-title.tsx'
import { problemAt } from './draft-problems.ts'
import type { Editing } from './editing.ts'
import { Ticks } from './ticks.tsx'

type Gauge = StandardBody['gauges'][number]

const NUMBERS = [
  ['min', 'From'],
  ['max', 'To'],
  ['target', 'Target'],
] as const

const FAULTS = [
  ['low', 'Fault below'],
  ['high', 'Fault above'],
] as const

/** What is measured: its unit, the band that is allowed, and the faults that readings outside it are. */
export function GaugesPart(editing: Editing) {
  const { draft, edit } = editing
  return (
    <>
      <p className="muted">
        A reading outside its band makes the trial incorrect and notes the fault, which every measure it is read at must
        have.
      </p>
      <ul>
        {draft.gauges.map(({ code }, at) => (
          <li key={code} className="draft-gauge">
            <GaugeFields {...editing} at={at} />
          </li>
        ))}
      </ul>
      <AddByTitle label="New gauge" onAdd={(title) => edit(addGauge(draft, title))} />
    </>
  )
}

function GaugeFields({ draft, problems, edit, at }: Editing & { at: number }) {
  const gauge = draft.gauges[at]!
  const { code, title } = gauge
  const wrong = (field: string) => problemAt(problems, `/gauges/${at}/${field}`)
  const set = (change: Partial<Gauge>, field: string) =>
    edit(changeGauge(draft, code, change), `gauge ${code} ${field}`)
  const reading = draft.minors.flatMap((minor, place) => (minor.gauges.includes(code) ? { ...minor, place } : []))
  const atMeasures = reading.flatMap(
    ({ gauges, place }) => problemAt(problems, `/minors/${place}/gauges/${gauges.indexOf(code)}`) ?? [],
  )
  return (
    <>
      <TextField
        label="What is measured"
        maxLength={400}
        value={title}
        error={wrong('title') ?? wrong('code')}
        onChange={(event) => set({ title: event.target.value }, 'title')}
      />
      <div className="draft-fields draft-numbers">
        <TextField
          label="Unit"
          maxLength={20}
          value={gauge.unit}
          error={wrong('unit')}
          onChange={(event) => set({ unit: event.target.value }, 'unit')}
        />
        {NUMBERS.map(([field, label]) => (
          <TextField
            key={field}
            label={label}
            inputMode="decimal"
            value={gauge[field] ?? ''}
            error={wrong(field)}
            onChange={(event) => set({ [field]: event.target.value.trim() || null }, field)}
          />
        ))}
      </div>
      <GaugeFaults gauge={gauge} faults={faultsForGauge(draft, code)} onFault={(change, field) => set(change, field)} />
      <Ticks
        legend="Read at"
        choices={draft.minors}
        chosen={reading.map((minor) => minor.code)}
        error={atMeasures[0] ?? null}
        onTick={(measure, isRead) => edit(readWith(draft, measure, code, isRead))}
      />
      <TextField
        label="Where the band comes from"
        maxLength={4000}
        value={gauge.origin ?? ''}
        onChange={(event) => set({ origin: event.target.value || undefined }, 'origin')}
      />
      <Button kind="quiet" aria-label={`Remove the gauge ${title}`} onClick={() => edit(removeGauge(draft, code))}>
        Remove
      </Button>
    </>
  )
}

interface GaugeFaultsProps {
  gauge: Gauge
  faults: readonly { code: string; title: string }[]
  onFault: (change: Partial<Gauge>, field: string) => void
}

/** The faults of readings below and above the band; one that no measure has any more stays to be seen. */
function GaugeFaults({ gauge, faults, onFault }: GaugeFaultsProps) {
  return (
    <div className="draft-fields">
      {FAULTS.map(([field, label]) => {
        const chosen = gauge[field] ?? ''
        const isKnown = chosen === '' || faults.some(({ code }) => code === chosen)
        return (
          <SelectField
            key={field}
            label={label}
            value={chosen}
            onChange={(event) => onFault({ [field]: event.target.value || null }, field)}
          >
            <option value="">None</option>
            {!isKnown && <option value={chosen}>{chosen}</option>}
            {faults.map(({ code, title }) => (
              <option key={code} value={code}>
                {title}
              </option>
            ))}
          </SelectField>
        )
      })}
    </div>
  )
}
