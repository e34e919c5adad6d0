import type { StandardBody } from '#contract/standards/standards.ts'
import { allSaying, saidByAll } from './call-said.ts'
import { changeMinor } from './measure-edits.ts'

/**
 * A minor measure with everything but the title as another one has it: counts, checks, faults, gauges, and what is said at
 * all its calls. As measures of a manual resemble each other, that is less to write.
 */
export function takenOver(draft: StandardBody, code: string, from: string): StandardBody {
  const other = draft.minors.find((minor) => minor.code === from)
  if (!other) return draft
  const { counts, checks, faults, gauges } = other
  const { said } = saidByAll(draft.calls, from)
  return {
    ...changeMinor(draft, code, { counts, checks, faults, gauges }),
    calls: allSaying(draft.calls, code, said),
  }
}
