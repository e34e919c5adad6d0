import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { useLocation } from 'wouter'
import type { Soldier } from '#contract/soldiers/soldiers.ts'
import { invalidatePeople } from '../../api/soldiers/people.ts'
import { removeSoldier } from '../../api/soldiers/removals.ts'
import { addressTo, paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { Failure } from '../../ui/failure.tsx'
import { Field, TextField } from '../../ui/field.tsx'
import { generalOf, wrongAt } from './wrong-at.ts'

/** The reason, the roster number typed by hand, and the button that cannot be taken back. */
export function RemoveForm({ soldier }: { soldier: Soldier }) {
  const client = useQueryClient()
  const [, go] = useLocation()
  const [words, setWords] = useState({ reason: '', confirmation: '' })
  const remove = useMutation({
    mutationFn: () => removeSoldier(soldier.id, words),
    onSuccess: async () => {
      await invalidatePeople(client)
      go(addressTo(paths.person, { id: soldier.id }))
    },
  })
  const wrong = wrongAt(remove.error)
  return (
    <form
      className="people-form"
      onSubmit={(event) => {
        event.preventDefault()
        remove.mutate()
      }}
    >
      <Field
        label="Why?"
        hint="Such as the rule of your unit. This stays in the record for good, so name nobody."
        error={wrong('/reason') ?? null}
      >
        {(id, described) => (
          <textarea
            id={id}
            aria-describedby={described}
            required
            rows={2}
            value={words.reason}
            onChange={(event) => setWords({ ...words, reason: event.target.value })}
          />
        )}
      </Field>
      <div className="people-fields">
        <TextField
          label="Their roster number"
          hint={`Type ${soldier.rosterNumber} to confirm.`}
          required
          autoComplete="off"
          spellCheck={false}
          value={words.confirmation}
          error={wrong('/confirmation') ?? null}
          onChange={(event) => setWords({ ...words, confirmation: event.target.value })}
        />
      </div>
      <p>
        <b>This cannot be undone.</b> A backup made before is the only copy there will be.
      </p>
      <div className="people-buttons">
        <Button type="submit" kind="main" disabled={remove.isPending}>
          {remove.isPending ? 'Removing …' : 'Remove the personal data for good'}
        </Button>
        <Button onClick={() => go(addressTo(paths.person, { id: soldier.id }))}>Leave it as it is</Button>
      </div>
      {generalOf(remove.error) && <Failure error={remove.error!} />}
    </form>
  )
}
