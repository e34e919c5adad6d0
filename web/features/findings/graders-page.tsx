import { useQuery } from '@tanstack/react-query'
import type { GraderFindings } from '#contract/findings/graders.ts'
import { agreementQuery, gradersQuery } from '../../api/findings/findings-deep.ts'
import { rowsPlot } from '../../charts/plot/rows-plot.ts'
import { shareAxis } from '../../charts/plot/share-axis.ts'
import { soldierFacts } from '../../parts/readiness/facts.ts'
import { paths } from '../../paths.ts'
import { Section } from '../../ui/section.tsx'
import { Table } from '../../ui/table.tsx'
import { counted } from '../../words/format-number.ts'
import { ofAll } from '../../words/of-all.ts'
import { AgreementPart } from './agreement-part.tsx'
import { FindingPage } from './finding-page.tsx'
import {
  formatCorrect,
  formatGraders,
  formatGradersWhy,
  formatOneGrader,
  formatTwice,
  gradersInOrder,
  isCalled,
} from './format-graders.ts'
import { NoneFound } from './none-found.tsx'
import { Picture } from './picture.tsx'
import { RestsOn } from './rests-on.tsx'
import { useFinding } from './use-finding.ts'
import { VoidsPart } from './voids-part.tsx'

type Grader = GraderFindings['items'][number]

/** More rows than these are no picture any more; the list has them all. */
const DRAWN = 60

const KINDS = {
  no: { key: 'can’t be told from the others', shape: 'disc', ink: 'ink' },
  few: { key: 'fewer than five attempts', shape: 'ring', ink: 'ink-3' },
  above: { key: 'stricter than chance allows', shape: 'down', ink: 'open' },
  below: { key: 'more lenient than chance allows', shape: 'up', ink: 'accent' },
} as const

const nameOf = ({ grade, name }: Grader) => `${grade} ${name}`

/** How strict each grader is, who was stricter on the same attempt, and how far graders agree. */
export default function GradersPage() {
  const finding = useFinding()
  const query = useQuery(gradersQuery(finding.filters))
  const agreement = useQuery(agreementQuery(finding.filters))
  const graders = query.data && gradersInOrder(query.data.items)
  const usual = query.data?.usualCorrect ?? null
  const drawn = graders?.filter(({ correct }) => correct !== null).slice(0, DRAWN) ?? []

  return (
    <FindingPage
      here={paths.graders}
      title="Graders"
      finding={finding}
      query={query}
      answer={graders && formatGraders(graders)}
      why={graders && formatGradersWhy(graders)}
    >
      {drawn.length > 0 && graders && (
        <Picture
          title="How strict each grader is"
          note={drawn.length < graders.length ? `${counted(drawn.length, 'grader')} of ${graders.length}` : 'by name'}
          plot={rowsPlot({
            rows: drawn.map((grader) => ({
              name: nameOf(grader),
              at: grader.correct?.rate ?? null,
              span: grader.correct,
              kind: grader.differs,
              says: [formatCorrect(grader, usual), formatOneGrader(grader)],
            })),
            across: shareAxis('correct of the same trials of an average candidate', 1),
            kinds: KINDS,
            spanKey: 'where the true share lies, with 95 % confidence',
            ...(usual === null ? {} : { against: [{ at: usual, key: 'the average grader' }] }),
          })}
          says="What each would mark correct of the same trials, so candidates and measures make no difference; drawn toward the average grader, the more the fewer the tests. A line across the average says that nothing can be told. Only a mark in another shape differs by more than chance allows over all graders together."
          file="graders"
          figures={{
            head: [
              'grade',
              'name',
              'attempts',
              'go',
              'severity_logits',
              'severity_low',
              'severity_high',
              'p',
              'adjusted_p',
              'graded_twice',
              'stricter',
              'more_lenient',
              'sign_test_p',
              'in_words',
            ],
            rows: graders.map((one) => [
              one.grade,
              one.name,
              one.attempts,
              one.passes,
              one.severity?.value ?? null,
              one.severity?.low ?? null,
              one.severity?.high ?? null,
              one.p,
              one.adjustedP,
              one.twice?.attempts ?? 0,
              one.twice?.stricter ?? null,
              one.twice?.lenient ?? null,
              one.twice?.p ?? null,
              formatOneGrader(one),
            ]),
          }}
        />
      )}
      {graders && graders.length > 0 && (
        <Section
          title="Graders"
          note={`${counted(graders.length, 'grader')}, ${graders.some(isCalled) ? 'those who differ first, then ' : ''}by name`}
        >
          <Table
            caption="Graders"
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
                head: 'In words',
                bare: true,
                cell: (one) => (isCalled(one) ? <b>{formatOneGrader(one)}</b> : formatOneGrader(one)),
              },
              { head: 'Would mark', cell: (one) => formatCorrect(one, usual) },
              { head: 'Same attempt as another', cell: formatTwice },
              { head: 'GO given', numeric: true, tight: true, cell: ({ passes, attempts }) => ofAll(passes, attempts) },
            ]}
          />
          <p className="rests-on">
            How strict somebody is rests on every trial on record of the standards chosen, whatever the other filters;
            the other columns follow the filters. GO given says as much about the candidates as about the grader.
          </p>
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
