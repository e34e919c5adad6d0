import { useQuery } from '@tanstack/react-query'
import { useSearch } from 'wouter'
import { measureFindingsQuery } from '../../api/findings.ts'
import { standardsQuery } from '../../api/standards.ts'
import { unitsQuery } from '../../api/units.ts'
import { ShareLine } from '../../charts/share-line.tsx'
import { FEW, failingOrder } from '../../model/failing-order.ts'
import type { MeasureCounts } from '../../model/finding-counts.ts'
import { faultTitle, measureTitle, standardTitle } from '../../model/titles.ts'
import { Empty } from '../../ui/empty.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { useFilters } from '../../ui/use-filters.ts'
import { ofAll } from '../../words/of-all.ts'
import { FINDING_FILTERS, FindingControls } from './controls.tsx'
import { sayFailing, sayFailingWhy } from './say-findings.ts'
import { FindingTabs } from './tabs.tsx'
import './findings.css'

const FAULTS_SHOWN = 3

/** The measures that fail most, with counts and what they are out of. */
export default function MeasuresPage() {
  const [filters, setFilters] = useFilters(FINDING_FILTERS)
  const search = useSearch()
  const units = useQuery(unitsQuery).data ?? []
  const standards = useQuery(standardsQuery).data ?? []
  const findings = useQuery(measureFindingsQuery(filters))
  const measures = findings.data && failingOrder(findings.data.items.filter(({ tested }) => tested > 0))
  const majors = findings.data?.majors.filter(({ judged }) => judged > 0) ?? []
  const oneStandard = new Set(measures?.map(({ standard }) => standard)).size <= 1
  const titleOf = ({ standard, measure }: Pick<MeasureCounts, 'standard' | 'measure'>) =>
    measureTitle(standards, standard, measure)
  const faultOf = ({ standard, measure }: Pick<MeasureCounts, 'standard' | 'measure'>, code: string) =>
    faultTitle(standards, standard, measure, code)

  return (
    <>
      <FindingTabs here="measures" search={search} />
      <Page
        title="Failing measures"
        answer={measures && sayFailing(measures, titleOf)}
        why={measures && sayFailingWhy(measures, { fault: faultOf })}
        error={measures ? null : findings.error}
        onRetry={findings.refetch}
        busy={findings.isPlaceholderData}
        controls={
          <FindingControls filters={filters} onChange={setFilters} units={units} standards={standards} withAttempts />
        }
      >
        {measures && measures.length > 0 && (
          <Section title="Minor measures" note="share NO-GO of those tested, from none to all">
            <ul className="failing">
              {measures.map((measure) => (
                <li key={`${measure.standard} ${measure.measure}`}>
                  <span className="failing-name">
                    <b>{titleOf(measure)}</b>
                    {!oneStandard && <span className="muted">{standardTitle(standards, measure.standard)}</span>}
                  </span>
                  <ShareLine part={measure.noGo} of={measure.tested} few={measure.tested < FEW} />
                  <span className="failing-count">
                    <b>{ofAll(measure.noGo, measure.tested)}</b>
                    {measure.tested < FEW && <span className="muted">few</span>}
                  </span>
                  <span className="failing-trials muted">
                    trials incorrect {ofAll(measure.incorrect, measure.trials)}
                    {measure.faults.length > 0 && '; '}
                    {[...measure.faults]
                      .sort((a, b) => b.count - a.count)
                      .slice(0, FAULTS_SHOWN)
                      .map(({ code, count }) => `${faultOf(measure, code)} ${count}`)
                      .join(', ')}
                  </span>
                </li>
              ))}
            </ul>
          </Section>
        )}
        {majors.length > 0 && (
          <Section title="Major measures" note="one NO-GO ends the test">
            <ul className="failing">
              {majors.map((major) => (
                <li key={`${major.standard} ${major.major}`}>
                  <span className="failing-name">
                    <b>{measureTitle(standards, major.standard, major.major)}</b>
                    <span className="muted">{standardTitle(standards, major.standard)}</span>
                  </span>
                  <ShareLine part={major.noGo} of={major.judged} few={major.judged < FEW} />
                  <span className="failing-count">
                    <b>{ofAll(major.noGo, major.judged)}</b>
                    {major.judged < FEW && <span className="muted">few</span>}
                  </span>
                  <span className="failing-trials muted">
                    {[...major.faults]
                      .sort((a, b) => b.count - a.count)
                      .slice(0, FAULTS_SHOWN)
                      .map(({ code, count }) => `${faultTitle(standards, major.standard, major.major, code)} ${count}`)
                      .join(', ')}
                  </span>
                </li>
              ))}
            </ul>
          </Section>
        )}
        {measures?.length === 0 && (
          <Section title="Minor measures">
            <Empty>
              <p>No counted test lies within these filters.</p>
            </Empty>
          </Section>
        )}
      </Page>
    </>
  )
}
