import { type ErrorCode, PROBLEM_TYPE_PREFIX } from '#contract/error-codes.ts'
import type { Problem } from '#contract/errors.ts'

/** Asks whoever sits here to show once more who they are. Out: whether they did. */
type Ask = () => Promise<boolean>

let ask: Ask | null = null
let asking: Promise<boolean> | null = null

/** Says who asks; null: nobody does, and what needs it is refused. */
export const askIdentityBy = (next: Ask | null): void => {
  ask = next
}

const CONFIRM: ErrorCode = 'confirm-identity'

/**
 * Whether a request was refused only until somebody shows once more who they are, and they have done so: then it is sent
 * again as it was. Of several at once one asks.
 */
export const isConfirmedNow = async (response: Response): Promise<boolean> => {
  if (response.status !== 403 || !ask) return false
  const problem = (await response
    .clone()
    .json()
    .catch(() => null)) as Problem | null
  return problem?.type === PROBLEM_TYPE_PREFIX + CONFIRM && askIdentity()
}

/** Asks now. Out: whether they did. */
export const askIdentity = async (): Promise<boolean> => {
  if (!ask) return false
  asking ??= ask().finally(() => {
    asking = null
  })
  return asking
}
