import { useMutation } from '@tanstack/react-query'
import { useLocation } from 'wouter'
import type { Plan } from '#contract/plans/plans.ts'
import { askPlan } from '../../api/plans/plans.ts'
import { withDays } from '../../domain/plans/format-plan.ts'
import { addressTo, paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { Failure } from '../../ui/failure.tsx'
import { Notice } from '../../ui/notice.tsx'

/** Of a plan that does not hold any more: what has changed, and a way to a new one. Of one that failed: the way alone. */
export function WorkOutAgain({ plan, today }: { plan: Plan; today: string }) {
  const [, navigate] = useLocation()
  const again = useMutation({
    mutationFn: () => {
      const { kind, unitId, from, to, options } = plan
      return askPlan({ kind, unitId, from, to, ...options })
    },
    onSuccess: ({ id }) => navigate(addressTo(paths.retestPlan, { id })),
  })
  const button = (
    <Button kind="main" onClick={() => again.mutate()} disabled={again.isPending}>
      Work it out again
    </Button>
  )
  return (
    <div className="plan-again no-print">
      {plan.state === 'stale' ? (
        <Notice>
          <p>
            <b>This has changed since the plan was made.</b> What does not hold any more is not booked.
          </p>
          <ul className="plan-changes">
            {plan.changed.map((sentence) => (
              <li key={sentence}>{withDays(sentence, today)}</li>
            ))}
          </ul>
          {button}
        </Notice>
      ) : (
        button
      )}
      {again.error && <Failure error={again.error} />}
    </div>
  )
}
