import type { AttemptKind } from './attempt-kind.ts'
import type { UnitFit } from './unit-fit.ts'

/**
 * The unit's pass rate in a kind of attempt, and how many tests it rests on; by the rule of succession (see `KindRates`), so that one test
 * does not make it 0 or 1.
 */
export function unitRate({ tests }: Pick<UnitFit, 'tests'>, kind: AttemptKind): { tests: number; rate: number } {
  const kinds = kind === 'retest' ? [tests.second, tests.later] : [tests[kind]]
  const taken = kinds.reduce((sum, one) => sum + one.tests, 0)
  const passed = kinds.reduce((sum, one) => sum + one.passes, 0)
  return { tests: taken, rate: (passed + 1) / (taken + 2) }
}
