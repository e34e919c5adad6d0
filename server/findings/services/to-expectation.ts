import type { AgainstExpected } from '../../contract/findings/credit.ts'
import { expectedPasses, type Stratum } from '../../domain/statistics/expectation/expected-passes.ts'
import { judgeAgainstExpected } from '../../domain/statistics/expectation/judge-against-expected.ts'

/** Observed passes against those expected at the unit's rates, in the wire format. */
export function toExpectation(strata: readonly Stratum[]): {
  against: AgainstExpected | null
  notComparable: { attempts: number; passes: number }
} {
  const { passes, probabilities, leftOut } = expectedPasses(strata)
  const judged = judgeAgainstExpected(passes, probabilities)
  const notComparable = {
    attempts: leftOut.reduce((sum, one) => sum + one.attempts, 0),
    passes: leftOut.reduce((sum, one) => sum + one.passes, 0),
  }
  if (judged.kind === 'no-data') return { against: null, notComparable }
  const { kind: _, ...against } = judged
  return { against, notComparable }
}
