import { useQuery } from '@tanstack/react-query'
import type { StandardBody } from '#contract/standards/standards.ts'
import { listsQuery } from '../../api/soldiers/arms-and-grades.ts'
import { SelectField, TextField } from '../../ui/field.tsx'
import { Section } from '../../ui/section.tsx'
import { codeFor, fittingCalls, moved, replaced } from './edit-definition.ts'
import { GaugesEditor } from './gauges-editor.tsx'
import { AddByTitle, MeasureEditor } from './measure-editor.tsx'

interface DraftEditorProps {
  draft: StandardBody
  onDraft: (draft: StandardBody) => void
}

const words = (text: string): string[] => text.split(/[\s,;]+/).filter(Boolean)
const whole = (text: string): number => Number.parseInt(text, 10) || 0

/** Everything that a new version may say otherwise. Calls follow the measures. */
export function DraftEditor({ draft, onDraft }: DraftEditorProps) {
  const lists = useQuery(listsQuery).data
  const { rule, majors, minors } = draft
  const set = (change: Partial<StandardBody>) => {
    const next = { ...draft, ...change }
    onDraft({ ...next, calls: fittingCalls(next) })
  }
  const used = [...majors, ...minors].map(({ code }) => code)
  return (
    <>
      <Section title="In force">
        <div className="standard-fields">
          <TextField
            label="Takes effect on"
            type="date"
            required
            value={draft.effectiveFrom}
            onChange={(event) => set({ effectiveFrom: event.target.value })}
          />
          <SelectField
            label="Tests under earlier versions"
            value={String(draft.equivalentToPrevious)}
            hint="Awards in force stay in either case."
            onChange={(event) => set({ equivalentToPrevious: event.target.value === 'true' })}
          >
            <option value="true">count on: it is equivalent</option>
            <option value="false">no longer count toward an award</option>
          </SelectField>
          <TextField label="Title" value={draft.title} onChange={(event) => set({ title: event.target.value })} />
          <TextField
            label="Arms"
            value={draft.arms.join(', ')}
            hint={`Empty: any.${lists?.arms.length ? ` The list has ${lists.arms.map(({ code }) => code).join(', ')}.` : ''}`}
            onChange={(event) => set({ arms: words(event.target.value) })}
          />
        </div>
      </Section>
      <Section title="Rule">
        <div className="standard-fields">
          <TextField
            label="Trials of a minor measure"
            type="number"
            min={1}
            max={9}
            value={rule.trials}
            onChange={(event) => set({ rule: { ...rule, trials: whole(event.target.value) } })}
          />
          <TextField
            label="Correct trials needed"
            type="number"
            min={1}
            max={9}
            value={rule.needed}
            onChange={(event) => set({ rule: { ...rule, needed: whole(event.target.value) } })}
          />
          <TextField
            label="Percent of minors that must be GO"
            inputMode="decimal"
            value={String(rule.percent)}
            onChange={(event) => set({ rule: { ...rule, percent: event.target.value } })}
          />
        </div>
      </Section>
      <Section title="Major measures" note="one NO-GO ends the test">
        <ul>
          {majors.map((major, at) => (
            <MeasureEditor
              key={major.code}
              kind="major"
              measure={major}
              onMeasure={(one) => set({ majors: replaced(majors, at, one) })}
              onMove={(by) => set({ majors: moved(majors, at, by) })}
            />
          ))}
        </ul>
        <AddByTitle
          label="New major measure"
          onAdd={(title) =>
            set({ majors: [...majors, { code: codeFor(title, used), title, criteria: [], faults: [] }] })
          }
        />
      </Section>
      <Section title="Minor measures">
        <ul>
          {minors.map((minor, at) => (
            <MeasureEditor
              key={minor.code}
              kind="minor"
              measure={minor}
              onMeasure={(one) => set({ minors: replaced(minors, at, one) })}
              onMove={(by) => set({ minors: moved(minors, at, by) })}
            >
              <TextField
                label="Counts"
                type="number"
                min={1}
                max={99}
                value={minor.counts ?? ''}
                onChange={(event) =>
                  set({ minors: replaced(minors, at, { ...minor, counts: whole(event.target.value) || null }) })
                }
              />
              <TextField
                label="Gauges, by code"
                value={minor.gauges.join(', ')}
                onChange={(event) =>
                  set({ minors: replaced(minors, at, { ...minor, gauges: words(event.target.value) }) })
                }
              />
            </MeasureEditor>
          ))}
        </ul>
        <AddByTitle
          label="New minor measure"
          onAdd={(title) => {
            const checks = { preparatory: [], execution: [] }
            const minor = { code: codeFor(title, used), title, counts: null, gauges: [], checks, faults: [] }
            set({ minors: [...minors, minor] })
          }}
        />
      </Section>
      <Section title="Gauges">
        <GaugesEditor gauges={draft.gauges} onGauges={(gauges) => set({ gauges })} />
      </Section>
    </>
  )
}
