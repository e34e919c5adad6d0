import type { StandardBody } from '#contract/standards/standards.ts'
import { withFittingCalls } from '../../../domain/standards/edits/measure-edits.ts'
import { TextField } from '../../../ui/field.tsx'
import { formatRuleOfStandard } from '../format-standard.ts'
import { problemAt } from './draft-problems.ts'
import type { Editing } from './editing.ts'

const whole = (text: string): number => Number.parseInt(text, 10) || 0

/** How many trials, how many of them correct, how many measures. Calls follow the trials. */
export function RulePart({ draft, problems, edit }: Editing) {
  const { rule } = draft
  const set = (change: Partial<StandardBody['rule']>, about: string) =>
    edit(withFittingCalls({ ...draft, rule: { ...rule, ...change } }), about)
  const isSound = problemAt(problems, '/rule', true) === null && draft.minors.length > 0
  return (
    <>
      <div className="draft-fields draft-thirds">
        <TextField
          label="Trials of a minor measure"
          type="number"
          min={1}
          max={9}
          value={rule.trials || ''}
          error={problemAt(problems, '/rule/trials')}
          onChange={(event) => set({ trials: Math.min(whole(event.target.value), 9) }, 'trials')}
        />
        <TextField
          label="Correct trials needed"
          type="number"
          min={1}
          max={9}
          value={rule.needed || ''}
          error={problemAt(problems, '/rule/needed')}
          onChange={(event) => set({ needed: whole(event.target.value) }, 'needed')}
        />
        <TextField
          label="Percent of minors that must be GO"
          inputMode="decimal"
          value={String(rule.percent)}
          error={problemAt(problems, '/rule/percent')}
          onChange={(event) => set({ percent: event.target.value.trim() }, 'percent')}
        />
      </div>
      {isSound && <p className="draft-meaning">{formatRuleOfStandard(draft)}</p>}
    </>
  )
}
