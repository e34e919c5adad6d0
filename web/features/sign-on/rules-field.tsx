import type { ClaimRule } from '#contract/sign-on/providers.ts'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import { ROLE_WORDS, type Role } from '../../domain/accounts/roles.ts'
import { UnitOptions } from '../../parts/soldiers/unit-options.tsx'
import { Button } from '../../ui/button.tsx'
import { SelectField, TextField } from '../../ui/field.tsx'

interface RulesFieldProps {
  rules: readonly ClaimRule[]
  onRules: (rules: ClaimRule[]) => void
  units: readonly Unit[]
  wrong: (pointer: string) => string | undefined
}

const BLANK: ClaimRule = { claim: 'groups', test: 'contains', value: '', role: 'soldier', unitId: null }

const leads = (role: Role): boolean => role === 'leader' || role === 'commander'

/** The rules in order: "if the claim … contains … then …". */
export function RulesField({ rules, onRules, units, wrong }: RulesFieldProps) {
  const put = (at: number, part: Partial<ClaimRule>) =>
    onRules(rules.map((rule, place) => (place === at ? { ...rule, ...part } : rule)))
  const up = (at: number) =>
    onRules(rules.map((rule, place) => rules[place === at ? at - 1 : place === at - 1 ? at : place] ?? rule))
  return (
    <div className="sign-on-rules">
      <p>
        All rules that fit give their role. An account leads one unit: the first rule that fits and names one settles
        it.
      </p>
      <ol>
        {rules.map((rule, at) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a rule is its place
          <li key={at}>
            <fieldset className="sign-on-rule">
              <legend className="field-label">Rule {at + 1}</legend>
              <TextField
                label="If the claim"
                required
                spellCheck={false}
                value={rule.claim}
                error={wrong(`/rules/${at}/claim`)}
                onChange={(event) => put(at, { claim: event.target.value })}
              />
              <SelectField
                label="Test"
                value={rule.test}
                onChange={(event) => put(at, { test: event.target.value as ClaimRule['test'] })}
              >
                <option value="contains">is a list that contains</option>
                <option value="is">is exactly</option>
              </SelectField>
              <TextField
                label="Value"
                required
                spellCheck={false}
                value={rule.value}
                error={wrong(`/rules/${at}/value`)}
                onChange={(event) => put(at, { value: event.target.value })}
              />
              <SelectField
                label="Then the role"
                value={rule.role}
                onChange={(event) => {
                  const role = event.target.value as Role
                  put(at, { role, unitId: leads(role) ? (rule.unitId ?? units[0]?.id ?? null) : null })
                }}
              >
                {ROLE_WORDS.map(({ role, title }) => (
                  <option key={role} value={role}>
                    {title}
                  </option>
                ))}
              </SelectField>
              {leads(rule.role) && (
                <SelectField
                  label="Over the unit"
                  value={rule.unitId ?? ''}
                  error={wrong(`/rules/${at}/unitId`)}
                  onChange={(event) => put(at, { unitId: event.target.value || null })}
                >
                  <UnitOptions units={units} />
                </SelectField>
              )}
              <div className="sign-on-buttons">
                <Button kind="quiet" aria-label={`Move rule ${at + 1} up`} disabled={at === 0} onClick={() => up(at)}>
                  Up
                </Button>
                <Button
                  kind="quiet"
                  aria-label={`Remove rule ${at + 1}`}
                  onClick={() => onRules(rules.filter((_, place) => place !== at))}
                >
                  Remove
                </Button>
              </div>
            </fieldset>
          </li>
        ))}
      </ol>
      <Button onClick={() => onRules([...rules, BLANK])}>Add a rule</Button>
    </div>
  )
}
