import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { Session } from '#contract/accounts/session.ts'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import { makeToken, ownTokensQuery } from '../../../api/accounts/tokens.ts'
import { ApiError } from '../../../api/errors.ts'
import { SCOPE_WORDS } from '../../../domain/accounts/token-scopes.ts'
import { unitsBelow } from '../../../domain/soldiers/unit-tree.ts'
import { UnitOptions } from '../../../parts/soldiers/unit-options.tsx'
import { Button } from '../../../ui/button.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { SelectField, TextField } from '../../../ui/field.tsx'

const LASTS = [
  { days: 30, says: '30 days' },
  { days: 90, says: '90 days' },
  { days: 366, says: 'a year' },
]

const BLANK = { name: '', scopes: [] as (typeof SCOPE_WORDS)[number]['scope'][], unitId: '', days: 90 }

interface TokenFormProps {
  account: Session
  units: readonly Unit[]
  /** Told the new token, once. */
  onMade: (made: { name: string; token: string }) => void
  onLeave: () => void
}

/** Makes a token for a script: name, what it may do, which unit, how long. */
export function TokenForm({ account, units, onMade, onLeave }: TokenFormProps) {
  const [form, setForm] = useState(BLANK)
  const change = (part: Partial<typeof BLANK>) => setForm({ ...form, ...part })
  const client = useQueryClient()
  const make = useMutation({
    mutationFn: () => makeToken({ ...form, unitId: form.unitId || null }),
    onSuccess: ({ token }) => {
      onMade({ name: form.name, token })
      return client.invalidateQueries({ queryKey: ownTokensQuery.queryKey })
    },
  })
  const items = make.error instanceof ApiError ? make.error.items : []
  const wrong = (pointer: string) => items.find((item) => item.pointer === pointer)?.detail
  const led = account.roles.includes('office') ? units : account.unitId ? unitsBelow(units, account.unitId) : []
  const toggle = (scope: (typeof BLANK.scopes)[number]) =>
    change({
      scopes: form.scopes.includes(scope) ? form.scopes.filter((one) => one !== scope) : [...form.scopes, scope],
    })
  return (
    <form
      className="account-form account-token-form"
      onSubmit={(event) => {
        event.preventDefault()
        make.mutate()
      }}
    >
      <TextField
        label="Name of the script"
        hint="The record of changes shows it beside your name."
        required
        maxLength={60}
        error={wrong('/name')}
        value={form.name}
        onChange={(event) => change({ name: event.target.value })}
      />
      <fieldset>
        <legend className="field-label">What it may do</legend>
        {SCOPE_WORDS.map(({ scope, lets }) => (
          <label key={scope} className="tick">
            <input type="checkbox" checked={form.scopes.includes(scope)} onChange={() => toggle(scope)} />
            <span>{lets}</span>
          </label>
        ))}
        {wrong('/scopes') && (
          <p className="field-wrong" role="alert">
            <span className="field-note">{wrong('/scopes')}</span>
          </p>
        )}
      </fieldset>
      {led.length > 0 && (
        <SelectField
          label="Unit"
          hint="It reaches soldiers of this unit and those below, and nobody else."
          error={wrong('/unitId')}
          value={form.unitId}
          onChange={(event) => change({ unitId: event.target.value })}
        >
          <option value="">As far as I do</option>
          <UnitOptions units={led} />
        </SelectField>
      )}
      <SelectField label="Lasts" value={form.days} onChange={(event) => change({ days: Number(event.target.value) })}>
        {LASTS.map(({ days, says }) => (
          <option key={days} value={days}>
            {says}
          </option>
        ))}
      </SelectField>
      <div className="reasoned-form-buttons">
        <Button type="submit" kind="main" disabled={make.isPending}>
          Make the token
        </Button>
        <Button onClick={onLeave}>Leave it</Button>
      </div>
      {make.error && items.length === 0 && <Failure error={make.error} />}
    </form>
  )
}
