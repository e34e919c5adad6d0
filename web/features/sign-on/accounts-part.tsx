import type { Unit } from '#contract/soldiers/soldiers.ts'
import { TextField } from '../../ui/field.tsx'
import type { DraftProvider } from './draft-provider.ts'
import { RuleTrial } from './rule-trial.tsx'
import { RulesField } from './rules-field.tsx'

interface AccountsPartProps {
  draft: DraftProvider
  change: (part: Partial<DraftProvider>) => void
  units: readonly Unit[]
  wrong: (pointer: string) => string | undefined
}

/** Whether people without an account get one, and by which rules. */
export function AccountsPart({ draft, change, units, wrong }: AccountsPartProps) {
  const tick = (name: 'makesAccounts' | 'rulesEachTime' | 'makesAdministrators', says: string, note: string) => (
    <label className="tick">
      <input type="checkbox" checked={draft[name]} onChange={(event) => change({ [name]: event.target.checked })} />
      <span>
        {says} <span className="muted small">{note}</span>
      </span>
    </label>
  )
  return (
    <fieldset className="sign-on-part">
      <legend>New accounts</legend>
      {tick(
        'makesAccounts',
        'Make an account at the first sign-in',
        'Otherwise only accounts that their owners linked under My account can sign in this way.',
      )}
      {(draft.makesAccounts || draft.rules.length > 0) && (
        <>
          {tick(
            'rulesEachTime',
            'The rules hold at each sign-in',
            'Roles and unit then follow the provider; who fits no rule any more is refused. Otherwise they hold at the first sign-in only.',
          )}
          {tick(
            'makesAdministrators',
            'A rule may make an administrator',
            'Whoever runs the provider can then make themselves one.',
          )}
          <div className="sign-on-claims">
            <TextField
              label="Claim with the name"
              hint="New accounts are named by it."
              required
              spellCheck={false}
              value={draft.nameClaim}
              error={wrong('/nameClaim')}
              onChange={(event) => change({ nameClaim: event.target.value })}
            />
            <TextField
              label="Claim with the roster number"
              hint="Finds the soldier whom sponsor, grader and soldier need. Leave it empty if there is none."
              spellCheck={false}
              value={draft.soldierClaim ?? ''}
              error={wrong('/soldierClaim')}
              onChange={(event) => change({ soldierClaim: event.target.value || null })}
            />
          </div>
          <RulesField rules={draft.rules} onRules={(rules) => change({ rules })} units={units} wrong={wrong} />
          <RuleTrial draft={draft} units={units} />
        </>
      )}
    </fieldset>
  )
}
