import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { standardsQuery } from '../../api/standards/standards.ts'
import { useMay } from '../../api/use-may.ts'
import { formatBand } from '../../domain/standards/format-band.ts'
import { formatCall } from '../../domain/standards/format-call.ts'
import { measureTitle, versionInForce, versionsOf } from '../../domain/standards/titles.ts'
import { addressTo, paths } from '../../paths.ts'
import { SelectField } from '../../ui/field.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { useFilters } from '../../ui/use-filters.ts'
import { counted } from '../../words/format-number.ts'
import { today as todayIn } from '../../words/today.ts'
import { ComparisonSection } from './comparison-section.tsx'
import { formatRuleOfStandard, formatVersion } from './format-standard.ts'
import { Measures } from './measures.tsx'
import { NewVersionButton } from './new-version-button.tsx'
import { StandardFiles } from './standard-files.tsx'
import './standards.css'

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
        <>
          {versions.length > 1 && (
            <SelectField
              label="Version"
              value={String(standard.version)}
              onChange={(event) => setFilters({ version: event.target.value })}
            >
              {versions.map(({ version }) => (
                <option key={version} value={String(version)}>
                  Version {version}
                </option>
              ))}
            </SelectField>
          )}
          {standard.publishedAt && <Link href={addressTo(paths.study, { id: standard.code })}>Study sheet</Link>}
          <Link href={addressTo(paths.paper, { id: standard.code })}>Paper sheets and call list</Link>
          {mayManage && <NewVersionButton from={standard} versions={versions} today={today} />}
          {mayManage && !standard.publishedAt && (
            <Link href={addressTo(paths.draft, { id: standard.id })}>Edit this draft</Link>
          )}
        </>
      }
    >
      <ComparisonSection id={standard.id} />
      <div className="columns">
        <Section title="Measures" note="majors first; one major NO-GO ends the test">
          <Measures standard={standard} />
        </Section>
        <div>
          <Section title="Standard">
            <ul className="plain-list">
              <li>
                Version {standard.version}, {formatVersion(standard, versions, today)}
              </li>
              {standard.task && <li>{standard.task}</li>}
              {standard.conditions.map((condition) => (
                <li key={condition}>{condition}</li>
              ))}
              {standard.references.map(({ title, edition }) => (
                <li key={title} className="muted">
                  {[title, edition].filter(Boolean).join(', ')}
                </li>
              ))}
            </ul>
          </Section>
          {standard.gauges.length > 0 && (
            <Section title="Gauges">
              <ul className="plain-list">
                {standard.gauges.map((gauge) => (
                  <li key={gauge.code}>
                    <b>{gauge.title}</b>
                    <br />
                    {[formatBand(gauge), gauge.target && `target ${gauge.target}`].filter(Boolean).join(', ')}
                    {gauge.origin && (
                      <>
                        <br />
                        <span className="muted small">{gauge.origin}</span>
                      </>
                    )}
                  </li>
                ))}
              </ul>
            </Section>
          )}
          {standard.cautions.length > 0 && (
            <Section title="Cautions">
              <ul className="plain-list">
                {standard.cautions.map((caution) => (
                  <li key={caution}>{caution}</li>
                ))}
              </ul>
            </Section>
          )}
        </div>
      </div>
      {mayManage && <StandardFiles id={standard.id} />}
      {standard.calls.length > 0 && (
        <Section title="Order of calls" note={counted(standard.calls.length, 'call')}>
          <ol className="standard-calls">
            {standard.calls.map((call, index) => (
              <li key={`${call.measure} ${call.trial}`}>
                <span className="muted small">{index + 1}</span>
                <span>
                  <b>{formatCall(call) || measureTitle(standards, standard.code, call.measure)}</b>
                  <br />
                  <span className="muted small">
                    {measureTitle(standards, standard.code, call.measure)}, trial {call.trial}
                    {call.from && `, from ${call.from}`}
                  </span>
                </span>
              </li>
            ))}
          </ol>
        </Section>
      )}
    </Page>
  )
}
