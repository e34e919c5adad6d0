import { z } from 'zod'

export const FirstStepName = z.enum([
  'units',
  'arms-and-grades',
  'standards',
  'certifications',
  'roster',
  'sponsors',
  'graders',
  'accounts',
  'test-days',
  'ceremonies',
])

export const FirstStep = z
  .object({
    step: FirstStepName,
    count: z.int().describe('How many there are: units, published standards, people on the roster and so on.'),
    waiting: z.int().describe('How many are begun and not finished: drafts, grades and arms nobody has confirmed.'),
    done: z.boolean(),
    skipped: z.boolean().describe('The unit does without it.'),
  })
  .meta({ id: 'FirstStep' })

export const FirstSteps = z
  .object({ steps: z.array(FirstStep).describe('In the order in which to do them.'), complete: z.boolean() })
  .meta({ id: 'FirstSteps' })

export const SkipBody = z.strictObject({ skipped: z.boolean() }).meta({ id: 'SkipBody' })

export const StepParams = z.object({ step: FirstStepName })

export type FirstStepName = z.infer<typeof FirstStepName>
export type FirstStep = z.infer<typeof FirstStep>
export type FirstSteps = z.infer<typeof FirstSteps>
