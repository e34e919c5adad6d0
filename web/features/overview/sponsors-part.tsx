import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { sponsorFindingsQuery } from '../../api/findings.ts'
import { SponsorsPlot } from '../../charts/sponsors-plot.tsx'
import { Part } from '../../ui/part.tsx'
import { Section } from '../../ui/section.tsx'
import { sayAllSponsors } from './say-overview.ts'

/** All sponsors together since a day, a dot each. */
export function SponsorsPart({ from }: { from: string }) {
  const sponsors = useQuery(sponsorFindingsQuery({ from }))
  return (
    <Section
      title="Sponsors"
      note="last twelve months, a dot a sponsor"
      more={<Link href={`/findings/sponsors?from=${from}`}>All sponsors</Link>}
    >
      <Part query={sponsors}>
        {sponsors.data && (
          <>
            <p className="part-answer">{sayAllSponsors(sponsors.data)}</p>
            {sponsors.data.length > 0 && <SponsorsPlot sponsors={sponsors.data} />}
          </>
        )}
      </Part>
    </Section>
  )
}
