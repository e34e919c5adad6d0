import { useQuery } from '@tanstack/react-query'
import { Link, useSearch } from 'wouter'
import { sponsorFindingsQuery } from '../../api/findings.ts'
import { standardsQuery } from '../../api/standards.ts'
import { unitsQuery } from '../../api/units.ts'
import { SponsorsPlot } from '../../charts/sponsors-plot.tsx'
import { FEW } from '../../model/failing-order.ts'
import { Empty } from '../../ui/empty.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { Table } from '../../ui/table.tsx'
import { useFilters } from '../../ui/use-filters.ts'
import { ofAll } from '../../words/of-all.ts'
import { counted } from '../../words/say-number.ts'
import { FINDING_FILTERS, FindingControls } from './controls.tsx'
import { saySponsors, saySponsorsWhy } from './say-findings.ts'
import { FindingTabs } from './tabs.tsx'

/** How the candidates of each sponsor came out, in counts, by name. */
export default function SponsorsPage() {
  const [filters, setFilters] = useFilters(FINDING_FILTERS)
  const search = useSearch()
  const units = useQuery(unitsQuery).data ?? []
  const standards = useQuery(standardsQuery).data ?? []
  const findings = useQuery(sponsorFindingsQuery({ ...filters, attempts: '' }))
  const sponsors = findings.data && [...findings.data].sort((a, b) => a.name.localeCompare(b.name, 'en'))

  return (
    <>
      <FindingTabs here="sponsors" search={search} />
      <Page
        title="Sponsors"
        answer={sponsors && saySponsors(sponsors)}
        why={sponsors && saySponsorsWhy(sponsors)}
        error={sponsors ? null : findings.error}
        onRetry={findings.refetch}
        busy={findings.isPlaceholderData}
        controls={<FindingControls filters={filters} onChange={setFilters} units={units} standards={standards} />}
      >
        {sponsors && sponsors.length > 0 && (
          <>
            <Section title="Attempts and passes" note="a dot a sponsor">
              <SponsorsPlot sponsors={sponsors} />
            </Section>
            <Section title="Sponsors" note={`${counted(sponsors.length, 'sponsor')}, by name`}>
              <Table
                caption="Sponsors by name"
                rows={sponsors}
                rowKey={({ sponsorId }) => sponsorId}
                columns={[
                  {
                    head: 'Sponsor',
                    cell: ({ sponsorId, grade, name }) => (
                      <Link href={`/candidates/${sponsorId}`}>
                        <b>
                          <bdi>
                            {grade} {name}
                          </bdi>
                        </b>
                      </Link>
                    ),
                  },
                  { head: 'First attempts GO', numeric: true, cell: (s) => ofAll(s.firstPasses, s.firstAttempts) },
                  { head: 'All attempts GO', numeric: true, cell: (s) => ofAll(s.passes, s.attempts) },
                  {
                    head: 'Note',
                    bare: true,
                    className: 'muted',
                    cell: (s) => (s.attempts < FEW ? 'fewer than five attempts' : ''),
                  },
                ]}
              />
            </Section>
          </>
        )}
        {sponsors?.length === 0 && (
          <Section title="Sponsors">
            <Empty>
              <p>No counted test with a sponsor lies within these filters.</p>
            </Empty>
          </Section>
        )}
      </Page>
    </>
  )
}
