import { Link } from 'wouter'
import type { FirstSteps } from '#contract/first-steps/first-steps.ts'
import { formatFirstSteps, isOpen, STEP_WORDS } from '../../../domain/first-steps/format-first-steps.ts'
import { paths } from '../../../paths.ts'
import { Section } from '../../../ui/section.tsx'

interface FirstStepsPartProps {
  firstSteps: FirstSteps
  /** How many are left is the heading of the page already. */
  isSaid: boolean
}

/** While a unit is being set up: what comes next. It goes once every step is done or left out. */
export function FirstStepsPart({ firstSteps, isSaid }: FirstStepsPartProps) {
  const next = firstSteps.steps.find(isOpen)
  if (!next) return null
  const { title, why, to, todo } = STEP_WORDS[next.step]
  return (
    <Section
      title="First steps"
      note={isSaid ? undefined : formatFirstSteps(firstSteps)}
      more={<Link href={paths.firstSteps}>All steps</Link>}
    >
      <p>
        <b>Next: {title}.</b> {why}
      </p>
      <p>
        <Link href={to} className="button button-main">
          {todo}
        </Link>
      </p>
    </Section>
  )
}
