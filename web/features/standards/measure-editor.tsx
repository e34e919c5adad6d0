import type { StandardBody } from '#contract/standards/standards.ts'
import { Button } from '../../ui/button.tsx'
import { TextField } from '../../ui/field.tsx'
import { codeFor, replaced } from './edit-definition.ts'

type Fault = StandardBody['minors'][number]['faults'][number]
interface Measure {
  code: string
  title: string
  faults: Fault[]
}

interface MeasureEditorProps<One extends Measure> {
  measure: One
  /** "major", "minor". */
  kind: string
  onMeasure: (measure: One | null) => void
  onMove: (by: -1 | 1) => void
  children?: React.ReactNode
}

/** Title and faults of a measure; up, down, away. */
export function MeasureEditor<One extends Measure>(props: MeasureEditorProps<One>) {
  const { measure, kind, onMeasure, onMove, children } = props
  const { faults } = measure
  const setFaults = (list: Fault[]) => onMeasure({ ...measure, faults: list })
  return (
    <li className="standard-edit">
      <div className="standard-fields">
        <TextField
          label={`Title of the ${kind} measure`}
          value={measure.title}
          hint={`Code ${measure.code}; it stays, so that figures of the versions go together.`}
          onChange={(event) => onMeasure({ ...measure, title: event.target.value })}
        />
        {children}
      </div>
      <details>
        <summary>
          Faults <span className="muted">{faults.length}</span>
        </summary>
        <ul className="standard-faults">
          {faults.map((fault, at) => (
            <li key={fault.code}>
              <TextField
                label={`Fault ${fault.code}`}
                value={fault.title}
                onChange={(event) => setFaults(replaced(faults, at, { ...fault, title: event.target.value }))}
              />
              <Button
                kind="quiet"
                aria-label={`Remove the fault ${fault.title}`}
                onClick={() => setFaults(replaced(faults, at, null))}
              >
                Remove
              </Button>
            </li>
          ))}
        </ul>
        <AddByTitle
          label="New fault"
          onAdd={(title) => {
            const used = faults.map(({ code }) => code)
            setFaults([...faults, { code: codeFor(title, used), title }])
          }}
        />
      </details>
      <div className="standard-buttons">
        <Button kind="quiet" aria-label={`Up: ${measure.title}`} onClick={() => onMove(-1)}>
          Up
        </Button>
        <Button kind="quiet" aria-label={`Down: ${measure.title}`} onClick={() => onMove(1)}>
          Down
        </Button>
        <Button kind="quiet" aria-label={`Remove the measure ${measure.title}`} onClick={() => onMeasure(null)}>
          Remove
        </Button>
      </div>
    </li>
  )
}

/** A title, and a button that adds something of that title. */
export function AddByTitle({ label, onAdd }: { label: string; onAdd: (title: string) => void }) {
  return (
    <form
      className="standard-add"
      onSubmit={(event) => {
        event.preventDefault()
        const field = event.currentTarget.elements[0] as HTMLInputElement
        if (field.value.trim()) onAdd(field.value.trim())
        field.value = ''
      }}
    >
      <TextField label={label} name="title" autoComplete="off" />
      <Button type="submit">Add</Button>
    </form>
  )
}
