import type { Unit } from '#contract/soldiers/soldiers.ts'
import { ApiError } from '../../../api/errors.ts'
import { ROLE_WORDS, type Role } from '../../../domain/accounts/roles.ts'
import { fullUnitName } from '../../../domain/soldiers/unit-tree.ts'
import { Button } from '../../../ui/button.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { TextField } from '../../../ui/field.tsx'
import { Section } from '../../../ui/section.tsx'
import { wrongAt } from '../wrong-at.ts'
import { type DraftAccount, ROLES_FOR_MANY, toggledRole } from './draft-account.ts'

interface NamesPartProps {
  units: readonly Unit[]
  drafts: readonly DraftAccount[]
  onDrafts: (drafts: readonly DraftAccount[]) => void
  error: Error | null
  busy: boolean
  onMake: () => void
  onBack: () => void
}

const titleOf = (role: Role): string => ROLE_WORDS.find((each) => each.role === role)!.title

/** The accounts before they are made: a name and roles for each, with what is wrong beside it. */
export function NamesPart({ units, drafts, onDrafts, error, busy, onMake, onBack }: NamesPartProps) {
  const wrong = wrongAt(error)
  const isAboutFields = error instanceof ApiError && error.items.length > 0
  const change = (changed: DraftAccount) =>
    onDrafts(drafts.map((each) => (each.soldier.id === changed.soldier.id ? changed : each)))
  return (
    <Section title="Names and roles" note="A leader leads the unit they are in and all below it.">
      <form
        className="several-form"
        onSubmit={(event) => {
          event.preventDefault()
          onMake()
        }}
      >
        <ul className="several-drafts">
          {drafts.map((draft, at) => {
            const { soldier, name, roles } = draft
            const roleFault = wrong(`/accounts/${at}/roles`)
            const soldierFault = wrong(`/accounts/${at}/soldierId`) ?? wrong(`/accounts/${at}/unitId`) ?? roleFault
            return (
              <li key={soldier.id}>
                <p className="several-who">
                  <b>
                    <bdi>{soldier.soldier}</bdi>
                  </b>
                  <span className="muted small">{fullUnitName(units, soldier.unitId)}</span>
                </p>
                <TextField
                  label={`Name to sign in with, ${soldier.soldier}`}
                  className="several-name"
                  autoComplete="off"
                  autoCapitalize="none"
                  spellCheck={false}
                  required
                  maxLength={100}
                  error={wrong(`/accounts/${at}/name`) ?? null}
                  value={name}
                  onChange={(event) => change({ ...draft, name: event.target.value })}
                />
                <fieldset className="several-roles">
                  <legend className="out-of-sight">Roles of {soldier.soldier}</legend>
                  {ROLES_FOR_MANY.map((role) => (
                    <label key={role} className="tick">
                      <input
                        type="checkbox"
                        checked={roles.includes(role)}
                        onChange={() => change(toggledRole(draft, role))}
                      />
                      {titleOf(role)}
                    </label>
                  ))}
                </fieldset>
                {soldierFault && (
                  <p className="several-fault" role="alert">
                    {soldierFault}
                  </p>
                )}
              </li>
            )
          })}
        </ul>
        {error && (isAboutFields ? <p role="alert">{error.message}</p> : <Failure error={error} />)}
        <div className="accounts-buttons">
          <Button type="submit" kind="main" disabled={busy}>
            Make all accounts
          </Button>
          <Button onClick={onBack}>Choose others</Button>
        </div>
      </form>
    </Section>
  )
}
