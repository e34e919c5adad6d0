import { ApiError } from '../../../api/errors.ts'

/** Why a one-time link cannot be used, or null. In: the token it carries, and what came of looking at it. */
export const formatLinkProblem = (
  token: string,
  error: Error | null,
): { answer: string; why: string; mayHelp: boolean } | null => {
  if (!token)
    return { answer: 'This link is incomplete.', why: 'Copy it again, with everything behind the #.', mayHelp: false }
  if (!error) return null
  if (error instanceof ApiError && error.status === 404) {
    return { answer: 'This link no longer works.', why: error.message, mayHelp: false }
  }
  return { answer: 'This link could not be looked at.', why: error.message, mayHelp: true }
}
