import { createContext, Suspense, useContext } from 'react'
import type { FirstStepName } from '#contract/first-steps/first-steps.ts'

type Ways = React.ComponentType<{ steps: readonly FirstStepName[] }>

/** What draws the ways to steps of setting up; it asks how far the unit is, which a part does not. */
export const WaysToStepsContext = createContext<Ways | null>(null)

/** On a page that is empty: the ways to the steps that would fill it. */
export function FilledBy({ steps }: { steps: readonly FirstStepName[] }) {
  const Draw = useContext(WaysToStepsContext)
  return (
    Draw && (
      <Suspense fallback={null}>
        <Draw steps={steps} />
      </Suspense>
    )
  )
}
