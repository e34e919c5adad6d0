import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { Link } from 'wouter'
import type { FirstStep } from '#contract/first-steps/first-steps.ts'
import { firstStepsQuery, skipStep } from '../../api/first-steps/first-steps.ts'
import { formatFirstSteps, formatStep, isOpen, STEP_WORDS } from '../../domain/first-steps/format-first-steps.ts'
import { Button } from '../../ui/button.tsx'
import { Failure } from '../../ui/failure.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { OwnUnitPart } from './own-unit-part.tsx'
import './first-steps.css'

/** What a unit needs before its first test day, in order; each step is ticked by the data, or left out. */
export default function FirstStepsPage() {
  const client = useQueryClient()
  const query = useQuery(firstStepsQuery)
  const skipping = useMutation({
    mutationFn: ({ step, skipped }: { step: FirstStep; skipped: boolean }) => skipStep(step.step, skipped),
    onSuccess: (steps) => client.setQueryData(firstStepsQuery.queryKey, steps),
  })
  const steps = query.data?.steps ?? []
  const next = steps.find(isOpen)
  return (
    <Page
      title="First steps"
      answer={query.data && formatFirstSteps(query.data)}
      why={
        query.data &&
        'In this order. A step ticks itself once its data is there; leave out what your unit does without.'
      }
      error={query.data ? null : query.error}
      onRetry={query.refetch}
    >
      {query.data && (
        <Section title="Steps">
          <ol className="first-steps">
            {steps.map((step) => {
              const { title, why, to, todo } = STEP_WORDS[step.step]
              return (
                <li key={step.step} className={step.done ? 'is-done' : step === next ? 'is-next' : ''}>
                  <div className="first-steps-what">
                    <b id={`step-${step.step}`}>{title}</b>
                    <span className="first-steps-how">
                      {step.done && <span aria-hidden="true">✓ </span>}
                      {formatStep(step)}
                    </span>
                    <p>{why}</p>
                  </div>
                  <div className="first-steps-do">
                    <Link href={to} className={step === next ? 'button button-main' : 'button'}>
                      {step.done ? 'Open' : todo}
                    </Link>
                    {!step.done && (
                      <Button
                        kind="quiet"
                        disabled={skipping.isPending}
                        aria-describedby={`step-${step.step}`}
                        onClick={() => skipping.mutate({ step, skipped: !step.skipped })}
                      >
                        {step.skipped ? 'Take it up again' : 'Leave it out'}
                      </Button>
                    )}
                  </div>
                </li>
              )
            })}
          </ol>
          {skipping.error && <Failure error={skipping.error} />}
        </Section>
      )}
      <OwnUnitPart />
    </Page>
  )
}
