import { useState } from 'react'
import { Link } from 'wouter'
import type { SponsorFindings } from '#contract/findings/findings.ts'
import { boundedFacts, fact, soldierFacts } from '../../parts/readiness/facts.ts'
import { addressTo, paths } from '../../paths.ts'
import { More } from '../../ui/more.tsx'
import { Table } from '../../ui/table.tsx'
import { ofAll } from '../../words/of-all.ts'
import { counted } from '../../words/say-number.ts'
import { expectedFacts } from './expected-facts.ts'
import { differs, sayExpected, sayOneSponsor, sayShrunk } from './say-sponsors.ts'

const PAGE = 40

/** Sponsors in the order given, each with what their attempts can tell; more of them on demand. */
export function SponsorList({ sponsors }: { sponsors: SponsorFindings['items'] }) {
  const [shown, setShown] = useState(PAGE)
  return (
    <>
      <Table<(typeof sponsors)[number]>
        caption="Sponsors"
        rows={sponsors.slice(0, shown)}
        rowKey={({ sponsorId }) => sponsorId}
        columns={[
          {
            head: 'Sponsor',
            facts: [...soldierFacts()],
            cell: ({ sponsorId, grade, name }) => (
              <Link href={addressTo(paths.candidate, { id: sponsorId })}>
                <b>
                  <bdi>
                    {grade} {name}
                  </bdi>
                </b>
              </Link>
            ),
          },
          {
            head: 'GO',
            facts: [fact('GO', ({ passes }) => passes), fact('Attempts', ({ attempts }) => attempts)],
            numeric: true,
            tight: true,
            cell: ({ attempts, passes }) => ofAll(passes, attempts),
          },
          {
            head: 'First attempts',
            facts: [
              fact('First attempts GO', ({ firstPasses }) => firstPasses),
              fact('First attempts', ({ firstAttempts }) => firstAttempts),
            ],
            numeric: true,
            tight: true,
            cell: ({ firstAttempts, firstPasses }) => (firstAttempts > 0 ? ofAll(firstPasses, firstAttempts) : 'none'),
          },
          { head: 'Against those expected', facts: expectedFacts(), cell: sayExpected },
          {
            head: 'Best estimate',
            facts: boundedFacts('Best estimate', ({ all: { shrunk } }) => ({
              value: shrunk.rate,
              interval: shrunk.interval,
            })),
            numeric: true,
            cell: ({ all }) => sayShrunk(all.shrunk),
          },
          {
            head: 'Coached',
            facts: [
              fact('Candidates', ({ candidates }) => candidates),
              fact('Days coached, added up', ({ daysCoached }) => daysCoached),
            ],
            cell: ({ candidates, daysCoached }) =>
              candidates > 0 ? `${counted(candidates, 'candidate')}, ${counted(daysCoached, 'day')} in all` : '',
          },
          {
            head: 'In words',
            bare: true,
            cell: (one) => (
              <>
                {differs(one) ? <b>{sayOneSponsor(one)}</b> : sayOneSponsor(one)}
                {one.all.rate.few && <span className="muted">; fewer than five</span>}
              </>
            ),
          },
        ]}
      />
      <More hasMore={shown < sponsors.length} loading={false} onMore={() => setShown(shown + PAGE)}>
        Show more sponsors
      </More>
    </>
  )
}
