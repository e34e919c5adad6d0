import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { PairFindings } from '#contract/findings/pairs.ts'
import { pairsQuery } from '../../api/findings/findings-deep.ts'
import { coefficientAxis } from '../../charts/plot/coefficient-axis.ts'
import { rowsPlot } from '../../charts/plot/rows-plot.ts'
import { fact } from '../../parts/readiness/facts.ts'
import { paths } from '../../paths.ts'
import { More } from '../../ui/more.tsx'
import { Section } from '../../ui/section.tsx'
import { Table } from '../../ui/table.tsx'
import { counted, figure } from '../../words/format-number.ts'
import { formatCoefficient } from '../../words/format-share.ts'
import { ofAll } from '../../words/of-all.ts'
import { FindingPage } from './finding-page.tsx'
import { clearestFirst, formatPair, formatPairs, formatPairsWhy, PAIRS_PICTURE } from './format-pairs.ts'
import { NoneFound } from './none-found.tsx'
import { Picture } from './picture.tsx'
import { RestsOn } from './rests-on.tsx'
import { useFinding } from './use-finding.ts'

type Pair = PairFindings['items'][number]

const DRAWN = 20
const PAGE = 40

const KINDS = {
  together: { key: 'fail together, more than chance allows', shape: 'disc', ink: 'ink' },
  apart: { key: 'fail apart, more than chance allows', shape: 'diamond', ink: 'open' },
  'not-shown': { key: 'not shown', shape: 'ring', ink: 'ink-3' },
} as const

const keyOf = ({ standard, first, second, versions }: Pair) => `${standard} ${first} ${second} ${versions.join()}`

/** Which minor measures are NO-GO together beyond what ability makes of it. */
export default function PairsPage() {
  const finding = useFinding()
  const query = useQuery(pairsQuery(finding.filters))
  const pairs = query.data && clearestFirst(query.data.items)
  const namesOf = ({ standard, versions, current, first, second }: Pair) =>
    [
      finding.titleOf({ standard, versions, current: true, measure: first }),
      finding.titleOf({ standard, versions, current, measure: second }),
    ] as const
  const nameOf = (pair: Pair) => namesOf(pair).join(' + ')
  const clearest = pairs?.filter(({ phi }) => phi !== null).slice(0, DRAWN) ?? []
  const drawn = [...clearest].sort((a, b) => (b.phi ?? 0) - (a.phi ?? 0))

  return (
    <FindingPage
      here={paths.pairs}
      title="Failing together"
      finding={finding}
      query={query}
      answer={pairs && formatPairs(pairs, namesOf)}
      why={pairs && query.data && formatPairsWhy(pairs, query.data.falseShare)}
    >
      {drawn.length > 0 && pairs && (
        <Picture
          title="The clearest pairs"
          note={`${figure(drawn.length)} of ${counted(pairs.length, 'pair')}`}
          plot={rowsPlot({
            rows: drawn.map((pair) => ({
              name: nameOf(pair),
              at: pair.phi,
              span: null,
              kind: pair.verdict === 'undefined' ? 'not-shown' : pair.verdict,
              says: [`both NO-GO in ${ofAll(pair.both, pair.n)}, by ability ${figure(Math.round(pair.expected ?? 0))}`],
            })),
            across: coefficientAxis(
              'how far they go together beyond ability (phi)',
              drawn.map(({ phi }) => phi ?? 0),
            ),
            kinds: KINDS,
            spanKey: '',
            against: [{ at: 0, key: 'as ability has it' }],
          })}
          says={PAIRS_PICTURE}
          file="failing-together"
          figures={{
            head: [
              'standard',
              'first',
              'second',
              'n',
              'both',
              'first_only',
              'second_only',
              'neither',
              'both_expected',
              'phi',
              'p',
              'adjusted_p',
              'verdict',
            ],
            rows: pairs.map((pair) => [
              pair.standard,
              pair.first,
              pair.second,
              pair.n,
              pair.both,
              pair.firstOnly,
              pair.secondOnly,
              pair.neither,
              pair.expected,
              pair.phi,
              pair.p,
              pair.adjustedP,
              pair.verdict,
            ]),
          }}
        />
      )}
      {pairs && pairs.length > 0 ? (
        <Section title="Pairs in figures" note="the clearest first">
          <PairList pairs={pairs} nameOf={nameOf} standardOf={finding.standardOf} />
        </Section>
      ) : (
        pairs && <NoneFound title="Pairs">No counted test lies within these filters.</NoneFound>
      )}
      {query.data && <RestsOn basis={query.data.basis} />}
    </FindingPage>
  )
}

interface PairListProps {
  pairs: readonly Pair[]
  nameOf: (pair: Pair) => string
  standardOf: (pair: Pair) => string
}

function PairList({ pairs, nameOf, standardOf }: PairListProps) {
  const [shown, setShown] = useState(PAGE)
  return (
    <>
      <Table<Pair>
        caption="Pairs of measures, the clearest first"
        rows={pairs.slice(0, shown)}
        rowKey={keyOf}
        columns={[
          {
            head: 'Measures',
            facts: [fact('Measures', nameOf), fact('Standard', standardOf)],
            cell: (pair) => (
              <>
                <b>{nameOf(pair)}</b> <span className="muted">{standardOf(pair)}</span>
              </>
            ),
          },
          {
            head: 'Both NO-GO',
            facts: [fact('Both NO-GO', ({ both }) => both), fact('Tests', ({ n }) => n)],
            numeric: true,
            tight: true,
            cell: ({ both, n }) => ofAll(both, n),
          },
          {
            head: 'By ability',
            facts: [fact('Both by ability', ({ expected }) => expected)],
            numeric: true,
            cell: ({ expected }) => expected !== null && figure(Math.round(expected)),
          },
          {
            head: 'Only one of them',
            facts: [
              fact('Only the first', ({ firstOnly }) => firstOnly),
              fact('Only the second', ({ secondOnly }) => secondOnly),
            ],
            numeric: true,
            cell: (pair) => figure(pair.firstOnly + pair.secondOnly),
          },
          {
            head: 'Phi left',
            facts: [fact('Phi left', ({ phi }) => phi)],
            numeric: true,
            cell: ({ phi }) => (phi === null ? 'undefined' : formatCoefficient(phi)),
          },
          {
            head: 'Adjusted p',
            facts: [fact('Adjusted p', ({ adjustedP }) => adjustedP)],
            numeric: true,
            tight: true,
            cell: ({ adjustedP: p }) => p !== null && (p < 0.001 ? 'under 0.001' : p.toFixed(3)),
          },
          { head: 'In words', bare: true, cell: formatPair },
        ]}
      />
      <More hasMore={shown < pairs.length} loading={false} onMore={() => setShown(shown + PAGE)}>
        Show more pairs
      </More>
    </>
  )
}
