import { useQuery } from '@tanstack/react-query'
import { Fragment } from 'react'
import { Link } from 'wouter'
import { can, type Permission } from '#access/permissions.ts'
import type { FirstStepName } from '#contract/first-steps/first-steps.ts'
import { sessionQuery } from '../api/accounts/session.ts'
import { firstStepsQuery } from '../api/first-steps/first-steps.ts'
import { STEP_WORDS } from '../domain/first-steps/format-first-steps.ts'

/** What a step asks of whoever takes it, where it is not running the roster. */
const NEEDED: Partial<Record<FirstStepName, Permission>> = {
  standards: 'manage-standards',
  certifications: 'manage-standards',
  accounts: 'manage-accounts',
  'test-days': 'plan-test-days',
  ceremonies: 'plan-ceremonies',
}

/** The ways to those steps that are not done, for whoever may take them. */
export default function WaysToSteps({ steps }: { steps: readonly FirstStepName[] }) {
  const roles = useQuery(sessionQuery).data?.roles ?? []
  const seesSteps = can({ roles }, 'manage-people')
  const known = useQuery({ ...firstStepsQuery, enabled: seesSteps }).data?.steps
  if (seesSteps && !known) return null
  const isDone = (step: FirstStepName) => known?.some((one) => one.step === step && one.done)
  const open = steps.filter((step) => !isDone(step) && can({ roles }, NEEDED[step] ?? 'manage-people'))
  if (open.length === 0) return null
  return (
    <p>
      {open.map((step, at) => (
        <Fragment key={step}>
          {at > 0 && ' · '}
          <Link href={STEP_WORDS[step].to}>{STEP_WORDS[step].todo}</Link>
        </Fragment>
      ))}
    </p>
  )
}
