import { useInfiniteQuery, useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { addMonths } from '#calendar/add-months.ts'
import { ceremoniesQuery } from '../../api/ceremonies.ts'
import { certificationsQuery } from '../../api/certifications.ts'
import { readinessQuery } from '../../api/readiness.ts'
import { unitsQuery } from '../../api/units.ts'
import { useMay } from '../../api/use-may.ts'
import { sayNextCeremony } from '../../model/ceremony/say-ceremony.ts'
import { CeremonyList } from '../../model/ceremony-list.tsx'
import { tallyRequired } from '../../model/tally-status.ts'
import { certificationsOn } from '../../model/titles.ts'
import { timeZoneOf } from '../../model/unit-tree.ts'
import { Page } from '../../ui/page.tsx'
import { Part } from '../../ui/part.tsx'
import { Section } from '../../ui/section.tsx'
import { today as todayIn } from '../../words/today.ts'
import { InForce } from './in-force.tsx'
import { MeasuresPart } from './measures-part.tsx'
import { RetestsPart } from './retests-part.tsx'
import { sayInForce } from './say-overview.ts'
import { SponsorsPart } from './sponsors-part.tsx'

const CEREMONIES_SHOWN = 5

/** The four figures the tool is for, each with its picture and the way to its detail. */
export default function OverviewPage() {
  const units = useQuery(unitsQuery).data ?? []
  const terms = useQuery(certificationsQuery).data ?? []
  const today = todayIn(timeZoneOf(units))
  const lastYear = addMonths(todayIn(), -12)
  const readiness = useInfiniteQuery(readinessQuery({}, 1))
  const ceremonies = useQuery(ceremoniesQuery)
  const seesFindings = useMay('see findings')
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
        <Section title="Ceremonies" note="next" more={<Link href="/ceremonies">All ceremonies</Link>}>
          <Part query={ceremonies}>{coming && <CeremonyList ceremonies={coming} today={today} />}</Part>
        </Section>
      </div>
      <div className="columns halves">
        {seesFindings && <MeasuresPart from={lastYear} />}
        <RetestsPart today={today} />
      </div>
      {seesFindings && <SponsorsPart from={lastYear} />}
    </Page>
  )
}
