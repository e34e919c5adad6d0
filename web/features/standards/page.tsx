import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { standardsQuery } from '../../api/standards/standards.ts'
import { useMay } from '../../api/use-may.ts'
import { versionInForce, versionsOf } from '../../domain/standards/titles.ts'
import { paths } from '../../paths.ts'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { useFilters } from '../../ui/use-filters.ts'
import { today as todayIn } from '../../words/today.ts'
import { ComparisonSection } from './comparison-section.tsx'
import { formatRuleOfStandard } from './format-standard.ts'
import { Measures } from './measures.tsx'
import { StandardFiles } from './standard-files.tsx'
import './standards.css'
import { CallsPart } from './calls-part.tsx'
import { StandardControls } from './standard-controls.tsx'
import { StandardFacts } from './standard-facts.tsx'

/** A standard to read: measures, faults, gauges, the order of calls. `id` is its code, or the id of one version. */
export default function StandardPage({ id }: { id: string }) {
  const [filters, setFilters] = useFilters(['version'])
  const query = useQuery(standardsQuery)
  const standards = query.data
  const byId = standards?.find((standard) => standard.id === id)
  const versions = standards ? versionsOf(standards, byId?.code ?? id) : []
  const today = todayIn()
  const asked = versions.find(({ version }) => String(version) === filters.version)
  const standard = asked ?? byId ?? versionInForce(versions, today)
  const mayManage = useMay('manage-standards')
  if (!standards || !standard) {
    const missing = standards && !standard
    return (
      <Page
        title="Standard"
        answer={missing ? 'There is no such standard here.' : undefined}
        why={missing ? <Link href={paths.standards}>All standards</Link> : undefined}
        error={query.error}
        onRetry={query.refetch}
      />
    )
  }
  return (
    <Page
      title={standard.title}
      answer={standard.title}
      why={formatRuleOfStandard(standard)}
      controls={
        <StandardControls
          standard={standard}
          versions={versions}
          today={today}
          mayManage={mayManage}
          onVersion={(version) => setFilters({ version })}
        />
      }
    >
      <ComparisonSection id={standard.id} />
      <div className="columns">
        <Section title="Measures" note="majors first; one major NO-GO ends the test">
          <Measures standard={standard} />
        </Section>
        <div>
          <StandardFacts standard={standard} versions={versions} today={today} />
        </div>
      </div>
      {mayManage && <StandardFiles id={standard.id} />}
      {standard.calls.length > 0 && <CallsPart standard={standard} standards={standards} />}
    </Page>
  )
}
