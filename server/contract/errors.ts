import { z } from 'zod'

/** One thing wrong with a request: where (JSON pointer into the body, or the parameter's name), which rule, and the remedy. */
export const ProblemItem = z
  .object({ pointer: z.string(), rule: z.string(), detail: z.string() })
  .meta({ id: 'ProblemItem' })

/** Every error answer, RFC 9457 `application/problem+json`. `type` names the rule that was broken. */
export const Problem = z
  .object({
    type: z.string(),
    title: z.string(),
    status: z.int(),
    detail: z.string(),
    instance: z.string().optional(),
    errors: z.array(ProblemItem).optional(),
  })
  .meta({ id: 'Problem' })

export type Problem = z.infer<typeof Problem>
export type ProblemItem = z.infer<typeof ProblemItem>

export const PROBLEM_TYPE_PREFIX = 'urn:reviewstand:problem:'
