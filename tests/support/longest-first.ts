import path from 'node:path'
import { BaseSequencer, type TestSpecification } from 'vitest/node'

/** What takes minutes, longest first. Begun last, one of them would run on alone while the other workers have nothing left. */
const LONGEST = [
  'tests/api/product/fuzz.test.ts',
  'tests/e2e/no-signal.test.ts',
  'tests/e2e/first-afternoon.test.ts',
  'tests/process/life-of-a-process.test.ts',
  'tests/e2e/every-address.test.ts',
  'tests/api/product/leaks.test.ts',
  'tests/api/product/demo.test.ts',
  'tests/e2e/write-standard.test.ts',
  'tests/e2e/screens.test.ts',
  'tests/e2e/grade-sheet.test.ts',
  'tests/e2e/findings.test.ts',
  'tests/e2e/taps.test.ts',
  'tests/e2e/any-eyes.test.ts',
]

/** Those first, also where no run before has left its times; the others as vitest has them. */
export class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const placeOf = ({ moduleId }: TestSpecification) => {
      const place = LONGEST.indexOf(path.relative(this.ctx.config.root, moduleId).replaceAll('\\', '/'))
      return place === -1 ? LONGEST.length : place
    }
    return (await super.sort(files)).sort((one, other) => placeOf(one) - placeOf(other))
  }
}
