import { useQuery } from '@tanstack/react-query'
import type { SponsorFindings } from '#contract/findings/findings.ts'
import { sponsorFindingsQuery } from '../../api/findings/findings.ts'
import { funnelQuery } from '../../api/findings/findings-deep.ts'
import { funnelPlot } from '../../charts/plot/funnel-plot.ts'
import { distinctNames } from '../../domain/soldiers/format-person.ts'
import { paths } from '../../paths.ts'
import { Section } from '../../ui/section.tsx'
import { counted } from '../../words/format-number.ts'
import { ofAll } from '../../words/of-all.ts'
import { FindingPage } from './finding-page.tsx'
import {
  differs,
  formatFunnel,
  formatOneSponsor,
  formatSponsors,
  formatSponsorsWhy,
  sponsorsInOrder,
} from './format-sponsors.ts'
import { NoneFound } from './none-found.tsx'
import { Picture } from './picture.tsx'
import { RestsOn } from './rests-on.tsx'
import { SponsorList } from './sponsor-list.tsx'
import { SponsorMeasuresPart } from './sponsor-measures-part.tsx'
import { useFinding } from './use-finding.ts'

const shortNames = (sponsors: SponsorFindings['items']) =>
  distinctNames(sponsors.map(({ sponsorId, grade, name }) => ({ id: sponsorId, grade, name, rosterNumber: '' })))

/** How the candidates of each sponsor came out, held against such candidates at large; who differs first, never in an order of merit. */
export default function SponsorsPage() {
  const finding = useFinding()
  const list = useQuery(sponsorFindingsQuery(finding.filters))
  const unit = useQuery(funnelQuery(finding.filters))
  const funnel = list.data && unit.data
  const sponsors = unit.data && list.data && sponsorsInOrder(list.data)

  return (
    <FindingPage
      here={paths.sponsors}
      title="Sponsors"
      finding={finding}
      query={{
        data: sponsors,
        error: list.error ?? unit.error,
        refetch: () => Promise.all([list.refetch(), unit.refetch()]),
        isPlaceholderData: list.isPlaceholderData || unit.isPlaceholderData,
      }}
      answer={sponsors && funnel && formatSponsors(sponsors, funnel)}
      why={sponsors && formatSponsorsWhy(sponsors)}
    >
      {sponsors && funnel && sponsors.length > 0 && (
        <>
          <Picture
            title="Sponsors against the unit"
            note="a mark a sponsor; those who differ are named"
            plot={funnelPlot(sponsors, funnel, shortNames(sponsors))}
            says={formatFunnel(funnel)}
            file="sponsors"
            figures={{
              head: [
                'grade',
                'name',
                'attempts',
                'go',
                'first_attempts',
                'first_go',
                'expected_go',
                'estimate',
                'estimate_low',
                'estimate_high',
                'p',
                'adjusted_p',
                'in_words',
              ],
              rows: sponsors.map((one) => [
                one.grade,
                one.name,
                one.attempts,
                one.passes,
                one.firstAttempts,
                one.firstPasses,
                one.expected,
                one.estimate.rate,
                one.estimate.low,
                one.estimate.high,
                one.p,
                one.adjustedP,
                formatOneSponsor(one),
              ]),
            }}
          />
          <Section
            title="Sponsors"
            note={`${counted(sponsors.length, 'sponsor')}, ${sponsors.some(differs) ? 'those who differ first, then ' : ''}by name`}
          >
            <SponsorList sponsors={sponsors} />
            <p className="rests-on">
              The best estimate is the GO of all attempts here, had everybody had this sponsor, drawn toward the common
              rate, the more the fewer the attempts; its 95&nbsp;% interval counts attempts of one candidate together.
              {unit.data &&
                unit.data.withoutSponsor.attempts > 0 &&
                ` Without a sponsor: GO in ${ofAll(unit.data.withoutSponsor.passes, unit.data.withoutSponsor.attempts)}.`}
            </p>
          </Section>
        </>
      )}
      {sponsors && sponsors.length > 0 && <SponsorMeasuresPart sponsors={sponsors} finding={finding} />}
      {sponsors?.length === 0 && (
        <NoneFound title="Sponsors">No counted test with a sponsor lies within these filters.</NoneFound>
      )}
      {unit.data && <RestsOn basis={unit.data.basis} />}
    </FindingPage>
  )
}
