import { Link } from 'wouter'
import type { FirstSteps } from '#contract/first-steps/first-steps.ts'
import { formatFirstSteps, isOpen, STEP_WORDS } from '../../../domain/first-steps/format-first-steps.ts'
import { paths } from '../../../paths.ts'
import { Section } from '../../../ui/section.tsx'

/** While a unit is being set up: what comes next. It goes once every step is done or left out. */
export function FirstStepsPart({ firstSteps }: { firstSteps: FirstSteps }) {
  const next = firstSteps.steps.find(isOpen)
  if (!next) return null
  const { title, why, to, todo } = STEP_WORDS[next.step]
  return (
    <Section
      title="First steps"
      note={formatFirstSteps(firstSteps)}
      more={<Link href={paths.firstSteps}>All steps</Link>}
    >
      <p>
        <b>Next: {title}.</b> {why} <Link href={to}>{todo}</Link>
      </p>
    </Section>
  )
}
