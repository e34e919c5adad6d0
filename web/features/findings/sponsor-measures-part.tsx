import { useQuery } from '@tanstack/react-query'
import type { SponsorFindings } from '#contract/findings/findings.ts'
import type { SponsorMeasures } from '#contract/findings/sponsor-measures.ts'
import { sponsorMeasuresQuery } from '../../api/findings/findings-deep.ts'
import { Failure } from '../../ui/failure.tsx'
import { SelectField } from '../../ui/field.tsx'
import { Section } from '../../ui/section.tsx'
import { Table } from '../../ui/table.tsx'
import { useFilters } from '../../ui/use-filters.ts'
import { formatOwn, formatSponsorMeasure, formatSponsorMeasures } from './format-sponsor-measures.ts'
import type { useFinding } from './use-finding.ts'

type Measure = SponsorMeasures['items'][number]

interface SponsorMeasuresPartProps {
  sponsors: SponsorFindings['items']
  finding: ReturnType<typeof useFinding>
}

/** What all candidates of one sponsor fail; a sponsor, who is shown nobody else, sees their own at once. */
export function SponsorMeasuresPart({ sponsors, finding }: SponsorMeasuresPartProps) {
  const [{ sponsor }, setSponsor] = useFilters(['sponsor'])
  const [only] = sponsors
  const id = sponsors.some(({ sponsorId }) => sponsorId === sponsor)
    ? sponsor
    : sponsors.length === 1 && only
      ? only.sponsorId
      : ''
  const { data, error, refetch } = useQuery(sponsorMeasuresQuery(finding.filters, id))
  const titleOf = ({ standard, measure, versions, current }: Measure) =>
    finding.titleOf({ standard, measure, versions, current })
  return (
    <Section title="What their candidates fail" note="over all candidates of one sponsor">
      {sponsors.length > 1 && (
        <SelectField label="Sponsor" value={id} onChange={(event) => setSponsor({ sponsor: event.target.value })}>
          <option value="">Choose a sponsor</option>
          {sponsors.map(({ sponsorId, grade, name }) => (
            <option key={sponsorId} value={sponsorId}>
              {grade} {name}
            </option>
          ))}
        </SelectField>
      )}
      {id !== '' && error && !data && <Failure error={error} onRetry={refetch} />}
      {id !== '' && data && (
        <>
          <p>{formatSponsorMeasures(data.items, titleOf)}</p>
          {data.items.length > 0 && (
            <Table
              caption="What their candidates fail"
              rows={data.items}
              rowKey={({ standard, measure, major, versions }) => `${standard} ${measure} ${major} ${versions.join()}`}
              columns={[
                {
                  head: 'Measure',
                  cell: (one) => (
                    <>
                      <b>{titleOf(one)}</b> <span className="muted">{finding.standardOf(one)}</span>
                    </>
                  ),
                },
                { head: 'NO-GO of theirs', numeric: true, tight: true, cell: ({ own }) => formatOwn(own) },
                { head: 'Of all others', numeric: true, tight: true, cell: ({ others }) => formatOwn(others) },
                {
                  head: 'In words',
                  bare: true,
                  cell: (one) =>
                    one.differs === 'more' || one.differs === 'fewer' ? (
                      <b>{formatSponsorMeasure(one)}</b>
                    ) : (
                      <span className={one.differs === 'few' ? 'muted' : undefined}>{formatSponsorMeasure(one)}</span>
                    ),
                },
              ]}
            />
          )}
          <p className="rests-on">
            Held against candidates of others with the same kind of attempt and the same score on all other measures:
            what stands out is what they are worse at than at the rest, and a reason to drill it, no verdict on anybody.
          </p>
        </>
      )}
    </Section>
  )
}
