import { useInfiniteQuery, useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { addMonths } from '#calendar/add-months.ts'
import { ceremoniesQuery } from '../../api/ceremonies.ts'
import { certificationsQuery } from '../../api/certifications.ts'
import { measureFindingsQuery, sponsorFindingsQuery } from '../../api/findings.ts'
import { readinessQuery } from '../../api/readiness.ts'
import { retestsQuery } from '../../api/retests.ts'
import { standardsQuery } from '../../api/standards.ts'
import { unitsQuery } from '../../api/units.ts'
import { CountsPlot } from '../../charts/counts-plot.tsx'
import { DueMarks } from '../../charts/due-marks.tsx'
import { tallyRequired } from '../../model/tally-status.ts'
import { certificationsOn, measureTitle, standardTitle } from '../../model/titles.ts'
import { timeZoneOf } from '../../model/unit-tree.ts'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { today as todayIn } from '../../words/today.ts'
import { CeremonyList } from './ceremony-list.tsx'
import { InForce } from './in-force.tsx'
import { Part } from './part.tsx'
import { sayAllSponsors, sayInForce, sayNextCeremony, sayRetestBacklog, sayWorstMeasure } from './say-overview.ts'
import { WorstMeasures } from './worst-measures.tsx'

const CEREMONIES_SHOWN = 5

/** The four figures the tool is for, each with its picture and the way to its detail. */
export default function OverviewPage() {
  const units = useQuery(unitsQuery).data ?? []
  const standards = useQuery(standardsQuery).data ?? []
  const terms = useQuery(certificationsQuery).data ?? []
  const today = todayIn(timeZoneOf(units, units[0]?.id))
  const lastYear = { from: addMonths(todayIn(), -12) }
  const readiness = useInfiniteQuery(readinessQuery({}, 1))
  const ceremonies = useQuery(ceremoniesQuery)
  const measures = useQuery(measureFindingsQuery(lastYear))
  const retests = useQuery(retestsQuery())
  const sponsors = useQuery(sponsorFindingsQuery(lastYear))
  const counts = readiness.data?.pages[0]?.counts
  const coming = ceremonies.data
    ?.filter(({ day }) => day >= today)
    .sort((a, b) => a.startsAt.localeCompare(b.startsAt))
    .slice(0, CEREMONIES_SHOWN)

  return (
    <Page
      title="Overview"
      answer={counts && sayInForce(tallyRequired(counts))}
      why={coming && sayNextCeremony(coming[0], today)}
      error={counts ? null : readiness.error}
      onRetry={readiness.refetch}
    >
      <div className="columns">
        <Section
          title="Certification status"
          note="one mark a soldier required to hold it, in order of state"
          more={<Link href="/stand">Who can stand</Link>}
        >
          {counts && <InForce units={units} counts={counts} certifications={certificationsOn(terms, today)} />}
        </Section>
        <Section title="Ceremonies" note="next">
          <Part query={ceremonies}>{coming && <CeremonyList ceremonies={coming} today={today} />}</Part>
        </Section>
      </div>
      <div className="columns halves">
        <Section
          title="Failing measures"
          note="last twelve months"
          more={<Link href={`/findings/measures?from=${lastYear.from}`}>All measures</Link>}
        >
          <Part query={measures}>
            {measures.data && (
              <>
                <p className="part-answer">
                  {sayWorstMeasure(measures.data.measures, ({ standard, measure }) =>
                    measureTitle(standards, standard, measure),
                  )}
                </p>
                <WorstMeasures
                  measures={measures.data.measures}
                  titleOf={({ standard, measure }) => measureTitle(standards, standard, measure)}
                  standardOf={({ standard }) => standardTitle(standards, standard)}
                />
              </>
            )}
          </Part>
        </Section>
        <Section title="Retests" note="by the week they are due" more={<Link href="/retests">All retests</Link>}>
          <Part query={retests}>
            {retests.data && (
              <>
                <p className="part-answer">{sayRetestBacklog(retests.data)}</p>
                <DueMarks due={retests.data.map(({ due }) => due)} today={today} />
              </>
            )}
          </Part>
        </Section>
      </div>
      <Section
        title="Sponsors"
        note="last twelve months, a dot a sponsor"
        more={<Link href={`/findings/sponsors?from=${lastYear.from}`}>All sponsors</Link>}
      >
        <Part query={sponsors}>
          {sponsors.data && (
            <>
              <p className="part-answer">{sayAllSponsors(sponsors.data)}</p>
              <CountsPlot
                points={sponsors.data.map(({ sponsorId, grade, name, attempts, passes }) => ({
                  key: sponsorId,
                  label: `${grade} ${name}`,
                  part: passes,
                  of: attempts,
                }))}
                ofLabel="attempts of their candidates"
                partLabel="of these GO"
                lineLabel="the share of all together"
                label="Passes against attempts, a dot a sponsor; the counts stand in the list of sponsors"
              />
            </>
          )}
        </Part>
      </Section>
    </Page>
  )
}
