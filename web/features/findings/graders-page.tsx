import { useQuery } from '@tanstack/react-query'
import type { GraderFindings } from '#contract/findings/graders.ts'
import { agreementQuery, gradersQuery } from '../../api/findings/findings-deep.ts'
import { rowsPlot } from '../../charts/plot/rows-plot.ts'
import { shareAxis } from '../../charts/plot/share-axis.ts'
import { fact, soldierFacts } from '../../parts/readiness/facts.ts'
import { paths } from '../../paths.ts'
import { Section } from '../../ui/section.tsx'
import { Table } from '../../ui/table.tsx'
import { ofAll } from '../../words/of-all.ts'
import { counted } from '../../words/say-number.ts'
import { AgreementPart } from './agreement-part.tsx'
import { expectedFacts } from './expected-facts.ts'
import { FindingPage } from './finding-page.tsx'
import { NoneFound } from './none-found.tsx'
import { Picture } from './picture.tsx'
import { RestsOn } from './rests-on.tsx'
import { sayExpected, sayGraders, sayGradersWhy, sayOneGrader } from './say-graders.ts'
import { useFinding } from './use-finding.ts'
import { VoidsPart } from './voids-part.tsx'

type Grader = GraderFindings['items'][number]

/** More rows than these are no picture any more; the list has them all. */
const DRAWN = 60

const KINDS = {
  within: { key: 'GO given; can’t be told from the usual', shape: 'disc', ink: 'ink' },
  few: { key: 'fewer than five attempts', shape: 'ring', ink: 'ink-3' },
  more: { key: 'more GO than chance would make it', shape: 'up', ink: 'accent' },
  less: { key: 'less', shape: 'down', ink: 'open' },
} as const

const kindOf = ({ against }: Grader): keyof typeof KINDS => {
  if (against?.verdict === 'differs') return against.side === 'above' ? 'more' : 'less'
  return against?.few ? 'few' : 'within'
}

const nameOf = ({ grade, name }: Grader) => `${grade} ${name}`

/** GO of each grader against what the unit's own rates would give, and how far graders agree on the same attempt. */
export default function GradersPage() {
  const finding = useFinding()
  const query = useQuery(gradersQuery(finding.filters))
  const agreement = useQuery(agreementQuery(finding.filters))
  const graders = query.data && [...query.data.items].sort((a, b) => a.name.localeCompare(b.name, 'en'))
  const drawn = graders?.filter(({ against }) => against !== null).slice(0, DRAWN) ?? []
  const share = (grader: Grader, count: number) => count / Math.max(1, grader.against?.attempts ?? 1)

  return (
    <FindingPage
      here={paths.graders}
      title="Graders"
      finding={finding}
      query={query}
      answer={graders && sayGraders(graders)}
      why={graders && sayGradersWhy(graders)}
    >
      {drawn.length > 0 && graders && (
        <Picture
          title="GO against what is expected"
          note={drawn.length < graders.length ? `${counted(drawn.length, 'grader')} of ${graders.length}` : 'by name'}
          plot={rowsPlot({
            rows: drawn.map((grader) => ({
              name: nameOf(grader),
              at: share(grader, grader.against?.observed ?? 0),
              span: grader.against && {
                low: share(grader, grader.against.usual.low),
                high: share(grader, grader.against.usual.high),
              },
              kind: kindOf(grader),
              says: [sayExpected(grader), `of ${counted(grader.against?.attempts ?? 0, 'attempt')}`],
            })),
            across: shareAxis('GO of the attempts graded', 1),
            kinds: KINDS,
            spanKey: 'usual with so many attempts',
            beside: {
              key: 'expected',
              shape: 'bar',
              at: drawn.map((grader) => grader.against && share(grader, grader.against.expected)),
            },
          })}
          says="The line is where the share would lie by chance alone, around what the unit’s own rates give for the same kinds of attempts; it is longer where fewer were graded. A mark outside is unusual; whether the grader is lenient or the candidates were better, the picture cannot tell. Attempts graded twice, below, can."
          file="graders"
          figures={{
            head: [
              'grade',
              'name',
              'attempts',
              'go',
              'compared',
              'observed_go',
              'expected_go',
              'usual_low',
              'usual_high',
              'in_words',
            ],
            rows: graders.map((one) => [
              one.grade,
              one.name,
              one.attempts,
              one.passes,
              one.against?.attempts ?? null,
              one.against?.observed ?? null,
              one.against?.expected ?? null,
              one.against?.usual.low ?? null,
              one.against?.usual.high ?? null,
              sayOneGrader(one),
            ]),
          }}
        />
      )}
      {graders && graders.length > 0 && (
        <Section title="Graders" note={`${counted(graders.length, 'grader')}, by name`}>
          <Table<Grader>
            caption="Graders by name"
            rows={graders}
            rowKey={({ graderId }) => graderId}
            columns={[
              {
                head: 'Grader',
                facts: soldierFacts(),
                cell: (grader) => (
                  <b>
                    <bdi>{nameOf(grader)}</bdi>
                  </b>
                ),
              },
              {
                head: 'GO',
                facts: [fact('GO', ({ passes }) => passes), fact('Attempts', ({ attempts }) => attempts)],
                numeric: true,
                tight: true,
                cell: ({ passes, attempts }) => ofAll(passes, attempts),
              },
              { head: 'Against those expected', facts: expectedFacts(), cell: sayExpected },
              {
                head: 'In words',
                bare: true,
                cell: (one) => (one.against?.verdict === 'differs' ? <b>{sayOneGrader(one)}</b> : sayOneGrader(one)),
              },
            ]}
          />
        </Section>
      )}
      {graders?.length === 0 && <NoneFound title="Graders">No counted test lies within these filters.</NoneFound>}
      <AgreementPart query={agreement} finding={finding} />
      <VoidsPart
        from={finding.filters.from || undefined}
        to={finding.filters.to || undefined}
        unitId={finding.filters.unitId || undefined}
      />
      {query.data && <RestsOn basis={query.data.basis} />}
    </FindingPage>
  )
}
