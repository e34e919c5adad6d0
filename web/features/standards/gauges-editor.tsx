import type { StandardBody } from '#contract/standards/standards.ts'
import { Button } from '../../ui/button.tsx'
import { TextField } from '../../ui/field.tsx'
import { codeFor, replaced } from './edit-definition.ts'
import { AddByTitle } from './measure-editor.tsx'

type Gauge = StandardBody['gauges'][number]

const FIELDS = [
  ['title', 'Title', false],
  ['unit', 'Unit', false],
  ['min', 'From', true],
  ['max', 'To', true],
  ['low', 'Fault below', true],
  ['high', 'Fault above', true],
] as const

/** Gauges: the band that is allowed, and the faults that readings outside it are. */
export function GaugesEditor({ gauges, onGauges }: { gauges: readonly Gauge[]; onGauges: (gauges: Gauge[]) => void }) {
  return (
    <>
      <ul>
        {gauges.map((gauge, at) => (
          <li key={gauge.code} className="standard-edit">
            <div className="standard-fields standard-gauge">
              {FIELDS.map(([field, label, mayBeEmpty]) => (
                <TextField
                  key={field}
                  label={`${label}, ${gauge.code}`}
                  value={gauge[field] ?? ''}
                  onChange={(event) => {
                    const value = event.target.value
                    onGauges(replaced(gauges, at, { ...gauge, [field]: value === '' && mayBeEmpty ? null : value }))
                  }}
                />
              ))}
            </div>
            <div className="standard-buttons">
              <Button
                kind="quiet"
                aria-label={`Remove the gauge ${gauge.title}`}
                onClick={() => onGauges(replaced(gauges, at, null))}
              >
                Remove
              </Button>
            </div>
          </li>
        ))}
      </ul>
      <AddByTitle
        label="New gauge"
        onAdd={(title) => {
          const used = gauges.map(({ code }) => code)
          onGauges([...gauges, { code: codeFor(title, used), title, unit: 'in', min: null, max: null }])
        }}
      />
    </>
  )
}
