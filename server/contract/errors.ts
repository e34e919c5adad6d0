import { z } from 'zod'
import { ERROR_CODES, type ErrorCode, PROBLEM_TYPE_PREFIX } from './error-codes.ts'

const Codes = z.enum(Object.keys(ERROR_CODES) as [ErrorCode, ...ErrorCode[]])

/** One thing wrong with a request: where (JSON pointer into the body, or the parameter's name), which rule, and the remedy. */
export const ProblemItem = z
  .object({ pointer: z.string(), rule: Codes, detail: z.string() })
  .meta({ id: 'ProblemItem' })

/** Every error answer, RFC 9457 `application/problem+json`. `type` names the rule that was broken. */
export const Problem = z
  .object({
    type: z
      .string()
      .describe(`${PROBLEM_TYPE_PREFIX} and a code; x-codes says of each with which status it comes, and what to do.`),
    title: z.string(),
    status: z.int(),
    detail: z.string(),
    instance: z.string().optional(),
    errors: z.array(ProblemItem).optional(),
  })
  .meta({ id: 'Problem', 'x-codes': ERROR_CODES })

export type Problem = z.infer<typeof Problem>
export type ProblemItem = z.infer<typeof ProblemItem>
