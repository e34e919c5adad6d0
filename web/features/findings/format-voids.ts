import type { VoidFindings } from '#contract/findings/voids.ts'
import { counted } from '../../words/format-number.ts'

/** How many tests were made void, and how many of them once the candidate had failed. */
export const formatVoids = (voids: VoidFindings['items']): string => {
  const all = voids.reduce((sum, one) => sum + one.voids, 0)
  const after = voids.reduce((sum, one) => sum + one.afterFailure, 0)
  if (all === 0) return 'No test was made void.'
  const late = after === 0 ? 'none of them' : `${after} of them`
  return `${counted(all, 'test was', 'tests were')} made void, ${late} after a major NO-GO or once the minimum was out of reach.`
}
