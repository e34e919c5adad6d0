import { useMutation } from '@tanstack/react-query'
import { useState } from 'react'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import { ApiError } from '../../api/errors.ts'
import { tryRules } from '../../api/sign-on/providers.ts'
import { fullUnitName } from '../../domain/soldiers/unit-tree.ts'
import { Button } from '../../ui/button.tsx'
import { Failure } from '../../ui/failure.tsx'
import { Field } from '../../ui/field.tsx'
import { Notice } from '../../ui/notice.tsx'
import type { DraftProvider } from './draft-provider.ts'
import { formatOutcome, formatTrial } from './format-trial.ts'

/** Tries the rules of the form on a sample, before they hold. */
export function RuleTrial({ draft, units }: { draft: DraftProvider; units: readonly Unit[] }) {
  const [sample, setSample] = useState('')
  const { makesAdministrators, nameClaim, soldierClaim, rules } = draft
  const attempt = useMutation({
    mutationFn: async () => {
      const trial = await tryRules({ sample, makesAdministrators, nameClaim, soldierClaim, rules })
      return { trial, rules }
    },
  })
  const items = attempt.error instanceof ApiError ? attempt.error.items : []
  const wrongSample = items.find(({ pointer }) => pointer === '/sample')?.detail
  const unitName = (id: string | null) => fullUnitName(units, id)
  return (
    <div className="sign-on-trial">
      <Field
        label="Try the rules on a sample"
        hint="Paste a token, or its claims as JSON. It is only read, not checked, and not kept."
        error={wrongSample}
      >
        {(id, described) => (
          <textarea
            id={id}
            aria-describedby={described}
            aria-invalid={wrongSample ? true : undefined}
            rows={5}
            spellCheck={false}
            value={sample}
            onChange={(event) => setSample(event.target.value)}
          />
        )}
      </Field>
      <Button disabled={attempt.isPending || sample.trim() === ''} onClick={() => attempt.mutate()}>
        Try them
      </Button>
      {attempt.error && !wrongSample && <Failure error={attempt.error} />}
      {attempt.data && (
        <Notice kind={attempt.data.trial.roles.length > 0 ? 'good' : 'plain'}>
          {formatTrial(attempt.data.trial, unitName).map((sentence) => (
            <p key={sentence}>{sentence}</p>
          ))}
          <ol className="sign-on-findings">
            {attempt.data.trial.outcomes.map((outcome, at) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: a rule is its place
              <li key={at}>
                Rule {at + 1}: {formatOutcome(outcome, attempt.data.rules[at]!, unitName)}
              </li>
            ))}
          </ol>
        </Notice>
      )}
    </div>
  )
}
