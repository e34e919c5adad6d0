import type { StandardBody } from '#contract/standards/standards.ts'
import { allSaying, saidByAll } from '../../../domain/standards/edits/call-said.ts'
import { readWith } from '../../../domain/standards/edits/gauge-edits.ts'
import { changeMinor } from '../../../domain/standards/edits/measure-edits.ts'
import { namedLines } from '../../../domain/standards/edits/named-lines.ts'
import { readChecks, writeCheck } from '../../../domain/standards/edits/written-lines.ts'
import { TextField } from '../../../ui/field.tsx'
import { problemAt } from './draft-problems.ts'
import type { Editing } from './editing.ts'
import { LinesField } from './lines-field.tsx'
import { SaidFields } from './said-fields.tsx'
import { TakeOverForm } from './take-over-form.tsx'
import { Ticks } from './ticks.tsx'

type Minor = StandardBody['minors'][number]

/** A minor measure: what is called, what is looked at, which faults there are, what is measured. */
export function MinorPart({ draft, problems, edit, at }: Editing & { at: number }) {
  const minor = draft.minors[at]!
  const { code, checks } = minor
  const pointer = `/minors/${at}`
  const set = (change: Partial<Minor>, field: string) => edit(changeMinor(draft, code, change), `${code} ${field}`)
  const { said, differ } = saidByAll(draft.calls, code)
  const calls = draft.calls.flatMap((call, place) => (call.measure === code ? `/calls/${place}` : []))
  const looked = (phase: keyof Minor['checks'], label: string) => (
    <LinesField
      label={label}
      value={checks[phase]}
      error={problemAt(problems, `${pointer}/checks/${phase}`, true)}
      hint={draft.arms.length > 1 ? `For one arm alone: “${draft.arms[0]}: …”` : undefined}
      toLine={writeCheck}
      read={(before, lines) => readChecks(before, lines, draft.arms)}
      onValue={(list) => set({ checks: { ...checks, [phase]: list } }, phase)}
    />
  )
  return (
    <>
      <div className="draft-fields draft-title">
        <TextField
          label="Title"
          maxLength={400}
          value={minor.title}
          error={problemAt(problems, `${pointer}/title`)}
          onChange={(event) => set({ title: event.target.value }, 'title')}
        />
        <TextField
          label="Counts"
          type="number"
          min={1}
          max={99}
          value={minor.counts ?? ''}
          error={problemAt(problems, `${pointer}/counts`)}
          onChange={(event) => set({ counts: Number.parseInt(event.target.value, 10) || null }, 'counts')}
        />
      </div>
      <SaidFields
        arms={draft.arms}
        said={said}
        differ={differ}
        problems={problems}
        pointers={calls}
        onSaid={(change, field) =>
          edit({ ...draft, calls: allSaying(draft.calls, code, change) }, `${code} said ${field}`)
        }
      />
      <div className="draft-fields">
        {looked('preparatory', 'Looked at after the preparatory command, one a line')}
        {looked('execution', 'Looked at after the command of execution, one a line')}
      </div>
      <LinesField
        label="Faults, one a line"
        value={minor.faults}
        error={problemAt(problems, `${pointer}/faults`, true)}
        toLine={({ title }) => title}
        read={namedLines}
        onValue={(faults) => set({ faults }, 'faults')}
      />
      {draft.gauges.length > 0 && (
        <Ticks
          legend="Measured with"
          choices={draft.gauges}
          chosen={minor.gauges}
          error={problemAt(problems, `${pointer}/gauges`, true)}
          onTick={(gauge, isRead) => edit(readWith(draft, code, gauge, isRead))}
        />
      )}
      {draft.minors.length > 1 && <TakeOverForm draft={draft} problems={problems} edit={edit} code={code} />}
    </>
  )
}
