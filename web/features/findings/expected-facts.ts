import type { AgainstExpected } from '#contract/findings/credit.ts'
import { fact } from '../../parts/readiness/facts.ts'
import type { Fact } from '../../ui/table-cells.ts'

/** What somebody's passes are held against, a column each. */
export const expectedFacts = <Row extends { against: AgainstExpected | null }>(): Fact<Row>[] => [
  fact('GO, comparable', ({ against }) => against?.observed),
  fact('GO expected', ({ against }) => against?.expected),
  fact('Usual from', ({ against }) => against?.usual.low),
  fact('Usual to', ({ against }) => against?.usual.high),
  fact('Verdict', ({ against }) => against && (against.verdict === 'differs' ? 'differs' : 'within the usual')),
]
