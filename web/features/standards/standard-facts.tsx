import type { Standard } from '#contract/standards/standards.ts'
import { formatBand } from '../../domain/standards/format-band.ts'
import { Section } from '../../ui/section.tsx'
import { formatVersion } from './format-standard.ts'

/** What a standard says beside its measures: task, conditions, references, gauges, cautions. */
export function StandardFacts({
  standard,
  versions,
  today,
}: {
  standard: Standard
  versions: readonly Standard[]
  today: string
}) {
  return (
    <>
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
    </>
  )
}
