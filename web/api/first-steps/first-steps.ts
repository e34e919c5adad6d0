import { queryOptions } from '@tanstack/react-query'
import * as endpoints from '#contract/first-steps/endpoints.ts'
import type { FirstStepName } from '#contract/first-steps/first-steps.ts'
import { call } from '../client.ts'

/** What a unit needs before its first test day, and how far it is; asked anew each time, for every step is done elsewhere. */
export const firstStepsQuery = queryOptions({
  queryKey: ['first-steps'],
  queryFn: () => call(endpoints.getFirstSteps),
})

export const skipStep = (step: FirstStepName, skipped: boolean) =>
  call(endpoints.skipFirstStep, { params: { step }, body: { skipped } })
