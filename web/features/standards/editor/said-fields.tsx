import type { StandardBody } from '#contract/standards/standards.ts'
import { byArm, type CallSaid, forAllArms } from '../../../domain/standards/edits/call-said.ts'
import { TextField } from '../../../ui/field.tsx'
import { problemAt } from './draft-problems.ts'
import type { Editing } from './editing.ts'
import { TextLines } from './lines-field.tsx'

type Call = StandardBody['calls'][number]

interface SaidFieldsProps extends Pick<Editing, 'problems'> {
  arms: readonly string[]
  said: CallSaid
  /** What is not the same at every call it stands for: left empty, and said so. */
  differ?: readonly (keyof CallSaid)[]
  /** Pointers of the calls it stands for. */
  pointers: readonly string[]
  onSaid: (change: CallSaid, field: string) => void
}

const NONE: string[] = []

/** What is called: from where, the commands, what finishes it. */
export function SaidFields({ arms, said, differ = [], problems, pointers, onSaid }: SaidFieldsProps) {
  const wrong = (field: keyof CallSaid) =>
    pointers.map((pointer) => problemAt(problems, `${pointer}/${field}`, true)).find(Boolean) ?? null
  const hintOf = (field: keyof CallSaid, hint?: string) =>
    differ.includes(field) ? 'Not the same at each call; what is written here goes for all.' : hint
  const text = (field: 'from' | 'preparatory' | 'cadence', label: string, hint?: string) => (
    <TextField
      label={label}
      maxLength={4000}
      value={said[field] ?? ''}
      error={wrong(field)}
      hint={hintOf(field, hint)}
      onChange={(event) => onSaid({ [field]: event.target.value }, field)}
    />
  )
  return (
    <div className="draft-fields draft-thirds">
      {text('from', 'Starts from')}
      {text('preparatory', 'Preparatory command')}
      <Execution
        arms={arms}
        execution={said.execution}
        error={wrong('execution')}
        hint={hintOf('execution')}
        onExecution={(execution) => onSaid({ execution }, 'execution')}
      />
      <TextLines
        label="Then, one a line"
        rows={2}
        hint={hintOf('finish', 'Commands that finish it or lead back to the start.')}
        value={said.finish ?? NONE}
        error={wrong('finish')}
        onValue={(finish) => onSaid({ finish }, 'finish')}
      />
      {text('cadence', 'Cadence')}
      <TextLines
        label="Steps of an unbroken run, one a line"
        rows={2}
        hint={hintOf('steps')}
        value={said.steps ?? NONE}
        error={wrong('steps')}
        onValue={(steps) => onSaid({ steps }, 'steps')}
      />
    </div>
  )
}

interface ExecutionProps {
  arms: readonly string[]
  execution: Call['execution']
  error: string | null
  hint: string | undefined
  onExecution: (execution: Call['execution']) => void
}

/** One word for all, or one for each arm. */
function Execution({ arms, execution, error, hint, onExecution }: ExecutionProps) {
  const isByArm = typeof execution === 'object'
  const words = byArm(execution, arms)
  return (
    <div className="draft-execution">
      {isByArm ? (
        arms.map((arm) => (
          <TextField
            key={arm}
            label={`Command of execution, ${arm}`}
            value={words[arm]!}
            error={error}
            onChange={(event) => onExecution({ ...words, [arm]: event.target.value })}
          />
        ))
      ) : (
        <TextField
          label="Command of execution"
          maxLength={4000}
          value={execution ?? ''}
          error={error}
          hint={hint}
          onChange={(event) => onExecution(event.target.value)}
        />
      )}
      {(arms.length > 1 || isByArm) && (
        <label className="tick">
          <input
            type="checkbox"
            checked={isByArm}
            onChange={(event) => onExecution(event.target.checked ? words : forAllArms(execution))}
          />
          Another word for each arm
        </label>
      )}
    </div>
  )
}
