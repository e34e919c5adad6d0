import { useMutation, useQueryClient } from '@tanstack/react-query'
import type { Plan } from '#contract/plans/plans.ts'
import { stopPlan } from '../../api/plans/plans.ts'
import { formatProgress } from '../../domain/plans/format-plan.ts'
import { Button } from '../../ui/button.tsx'
import { Failure } from '../../ui/failure.tsx'

/** How far a plan is, and a way to end the search with the best so far. */
export function PlanProgress({ plan }: { plan: Plan }) {
  const client = useQueryClient()
  const stop = useMutation({
    mutationFn: () => stopPlan(plan.id),
    onSettled: () => client.invalidateQueries({ queryKey: ['plans', plan.id] }),
  })
  const { progress } = plan
  return (
    <div className="plan-progress no-print">
      <p role="status">{formatProgress(plan)}</p>
      <progress
        aria-label="Time used of the time there is"
        max={progress?.limit ?? plan.options.seconds}
        {...(progress && progress.ahead === 0 ? { value: Math.min(progress.seconds, progress.limit) } : {})}
      />
      <Button onClick={() => stop.mutate()} disabled={stop.isPending || stop.isSuccess}>
        Stop and keep the best so far
      </Button>
      {stop.error && <Failure error={stop.error} />}
    </div>
  )
}
