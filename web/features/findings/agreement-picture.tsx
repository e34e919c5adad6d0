import { coefficientAxis } from '../../charts/plot/coefficient-axis.ts'
import { rowsPlot } from '../../charts/plot/rows-plot.ts'
import { FEW } from '../../domain/findings/failing-order.ts'
import { isOneStandard, type NamedAgreement } from './agreement-table.tsx'
import { formatAgreement } from './format-graders.ts'
import { Picture } from './picture.tsx'

/** More rows than these are no picture any more; the list has them all. */
const DRAWN = 30

const KINDS = {
  sure: { key: 'agreement beyond chance', shape: 'disc', ink: 'ink' },
  never: { key: 'never disagreed, so without a line', shape: 'hollow diamond', ink: 'ink' },
  few: { key: 'fewer than five attempts', shape: 'ring', ink: 'ink-3' },
} as const

const kindOf = ({ attempts, ac1 }: NamedAgreement): keyof typeof KINDS =>
  attempts < FEW ? 'few' : ac1.interval === null ? 'never' : 'sure'

const fullName = ({ measure, name, standardName }: NamedAgreement): string =>
  measure === null ? name : `${name}, ${standardName}`

/** How far graders agree beyond chance, whole tests first. */
export function AgreementPicture({ items, says }: { items: readonly NamedAgreement[]; says: string }) {
  const drawn = items
    .filter(({ ac1 }) => ac1.value !== null)
    .sort((a, b) => Number(b.measure === null) - Number(a.measure === null) || (a.ac1.value ?? 0) - (b.ac1.value ?? 0))
    .slice(0, DRAWN)
  const ends = drawn.flatMap(({ ac1 }) => [ac1.value ?? 0, ac1.interval?.low ?? 0])
  const oneStandard = isOneStandard(items)
  return (
    <Picture
      title="Graded twice"
      note={`whole tests first, then where graders agree least${drawn.length < items.length ? `; ${drawn.length} of ${items.length}` : ''}`}
      plot={rowsPlot({
        rows: drawn.map((item) => ({
          name: oneStandard ? item.name : fullName(item),
          at: item.ac1.value,
          span: item.ac1.interval,
          kind: kindOf(item),
          says: [formatAgreement(item.ac1)],
        })),
        across: coefficientAxis('agreement beyond chance (AC1)', [1, ...ends]),
        kinds: KINDS,
        spanKey: 'where the true figure lies, with 95 % confidence',
        against: [{ at: 0, key: 'as chance has it' }],
      })}
      says={says}
      file="graded-twice"
      figures={{
        head: [
          'standard',
          'measure',
          'attempts',
          'both_go',
          'first_go_only',
          'second_go_only',
          'both_no_go',
          'fleiss',
          'ac1',
          'ac1_low',
          'ac1_high',
        ],
        rows: items.map((item) => [
          item.standard,
          item.measure ?? 'whole test',
          item.attempts,
          item.table.bothGo,
          item.table.firstGoOnly,
          item.table.secondGoOnly,
          item.table.bothNoGo,
          item.fleiss.value,
          item.ac1.value,
          item.ac1.interval?.low ?? null,
          item.ac1.interval?.high ?? null,
        ]),
      }}
    />
  )
}
