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
export function GaugesPart({ draft, problems, edit }: Editing) {
  return (
    <>
      <p className="muted">
        A reading outside its band makes the trial incorrect and notes the fault. Which measures are read with a gauge
        is said at the measure.
      </p>
      <ul>
        {draft.gauges.map((gauge, at) => {
          const { code, title } = gauge
          const pointer = `/gauges/${at}`
          const set = (change: Partial<Gauge>, field: string) =>
            edit(changeGauge(draft, code, change), `gauge ${code} ${field}`)
          const faults = faultsForGauge(draft, code)
          return (
            <li key={code} className="draft-gauge">
              <TextField
                label="What is measured"
                maxLength={400}
                value={title}
                error={problemAt(problems, `${pointer}/title`) ?? problemAt(problems, `${pointer}/code`)}
                onChange={(event) => set({ title: event.target.value }, 'title')}
              />
              <div className="draft-fields draft-numbers">
                <TextField
                  label="Unit"
                  maxLength={20}
                  value={gauge.unit}
                  error={problemAt(problems, `${pointer}/unit`)}
                  onChange={(event) => set({ unit: event.target.value }, 'unit')}
                />
                {NUMBERS.map(([field, label]) => (
                  <TextField
                    key={field}
                    label={label}
                    inputMode="decimal"
                    value={gauge[field] ?? ''}
                    error={problemAt(problems, `${pointer}/${field}`)}
                    onChange={(event) => set({ [field]: event.target.value.trim() || null }, field)}
                  />
                ))}
              </div>
              <div className="draft-fields">
                {FAULTS.map(([field, label]) => (
                  <SelectField
                    key={field}
                    label={label}
                    value={gauge[field] ?? ''}
                    onChange={(event) => set({ [field]: event.target.value || null }, field)}
                  >
                    <option value="">None</option>
                    {gauge[field] && !faults.some((fault) => fault.code === gauge[field]) && (
                      <option value={gauge[field]}>{gauge[field]}</option>
                    )}
                    {faults.map((fault) => (
                      <option key={fault.code} value={fault.code}>
                        {fault.title}
                      </option>
                    ))}
                  </SelectField>
                ))}
              </div>
              <Ticks
                legend="Read at"
                choices={draft.minors}
                chosen={draft.minors.flatMap((minor) => (minor.gauges.includes(code) ? minor.code : []))}
                error={problemAt(
                  problems,
                  `/minors/${draft.minors.findIndex((minor) => minor.gauges.includes(code))}/gauges`,
                  true,
                )}
                onTick={(measure, isRead) => edit(readWith(draft, measure, code, isRead))}
              />
              <TextField
                label="Where the band comes from"
                maxLength={4000}
                value={gauge.origin ?? ''}
                onChange={(event) => set({ origin: event.target.value || undefined }, 'origin')}
              />
              <Button
                kind="quiet"
                aria-label={`Remove the gauge ${title}`}
                onClick={() => edit(removeGauge(draft, code))}
              >
                Remove
              </Button>
            </li>
          )
        })}
      </ul>
      <AddByTitle label="New gauge" onAdd={(title) => edit(addGauge(draft, title))} />
    </>
  )
}
