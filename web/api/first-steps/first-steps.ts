import { queryOptions } from '@tanstack/react-query'
import type { FirstStepName, FirstSteps } from '#contract/first-steps/first-steps.ts'
import { get, send } from '../client.ts'

/** What a unit needs before its first test day, and how far it is; asked anew each time, for every step is done elsewhere. */
export const firstStepsQuery = queryOptions({
  queryKey: ['first-steps'],
  queryFn: () => get<typeof FirstSteps>('/first-steps'),
})

export const skipStep = (step: FirstStepName, skipped: boolean) =>
  send<typeof FirstSteps>('PUT', `/first-steps/${step}`, { skipped })
