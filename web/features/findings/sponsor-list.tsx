import { useState } from 'react'
import { Link } from 'wouter'
import type { SponsorFindings } from '#contract/findings/findings.ts'
import { fact, soldierFacts } from '../../parts/readiness/facts.ts'
import { addressTo, paths } from '../../paths.ts'
import { More } from '../../ui/more.tsx'
import { Table } from '../../ui/table.tsx'
import { counted } from '../../words/format-number.ts'
import { ofAll } from '../../words/of-all.ts'
import { differs, formatEstimate, formatExpected, formatOneSponsor } from './format-sponsors.ts'

const PAGE = 40

/** Sponsors in the order given, each with one verdict; more of them on demand. */
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
            head: 'In words',
            bare: true,
            cell: (one) =>
              differs(one) ? (
                <b>{formatOneSponsor(one)}</b>
              ) : (
                <span className={one.differs === 'few' ? 'muted' : undefined}>{formatOneSponsor(one)}</span>
              ),
          },
          {
            head: 'GO of their candidates',
            facts: [fact('Expected', ({ expected }) => expected)],
            cell: formatExpected,
          },
          {
            head: 'All attempts',
            facts: [fact('GO', ({ passes }) => passes), fact('Attempts', ({ attempts }) => attempts)],
            numeric: true,
            tight: true,
            cell: ({ attempts, passes }) => ofAll(passes, attempts),
          },
          {
            head: 'First tests',
            facts: [
              fact('First tests GO', ({ firstPasses }) => firstPasses),
              fact('First tests', ({ firstAttempts }) => firstAttempts),
            ],
            numeric: true,
            tight: true,
            cell: ({ firstAttempts, firstPasses }) => (firstAttempts > 0 ? ofAll(firstPasses, firstAttempts) : 'none'),
          },
          {
            head: 'Best estimate',
            facts: [
              fact('Estimate', ({ estimate }) => estimate.rate),
              fact('Estimate, low', ({ estimate }) => estimate.low),
              fact('Estimate, high', ({ estimate }) => estimate.high),
            ],
            numeric: true,
            cell: formatEstimate,
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
        ]}
      />
      <More hasMore={shown < sponsors.length} loading={false} onMore={() => setShown(shown + PAGE)}>
        Show more sponsors
      </More>
    </>
  )
}
