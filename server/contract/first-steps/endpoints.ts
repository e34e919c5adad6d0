import type { Endpoint } from '../endpoint.ts'
import type { FirstSteps, SkipBody, StepParams } from './first-steps.ts'

export const getFirstSteps = 'GET /api/first-steps' as Endpoint<{ answer: typeof FirstSteps }>

export const skipFirstStep = 'PUT /api/first-steps/:step' as Endpoint<{
  params: typeof StepParams
  body: typeof SkipBody
  answer: typeof FirstSteps
}>
