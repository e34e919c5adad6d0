/** Why the device could not keep something, and what to do, in words for a grader on the field. */
export const formatKeepingProblem = (error: unknown): string => {
  const name = error instanceof Error || error instanceof DOMException ? error.name : ''
  if (name === 'QuotaExceededError') {
    return 'This phone has no space left. The marks are on this page only: free some space (photos, downloads) and leave the page open; it tries again by itself.'
  }
  if (name === 'WrittenElsewhereError' && error instanceof Error) return error.message
  return 'This browser keeps nothing on the phone just now (private window, or its storage is broken). The marks are on this page only: leave it open; it tries again by itself.'
}
