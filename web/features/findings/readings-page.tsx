import { useQuery } from '@tanstack/react-query'
import type { ReadingFindings } from '#contract/findings/readings.ts'
import { readingsQuery } from '../../api/findings/findings-deep.ts'
import { readingPlot } from '../../charts/plot/reading-plot.ts'
import { paths } from '../../paths.ts'
import { SelectField } from '../../ui/field.tsx'
import { Section } from '../../ui/section.tsx'
import { useFilters } from '../../ui/use-filters.ts'
import { counted } from '../../words/format-number.ts'
import { FindingPage } from './finding-page.tsx'
import { byOutside, formatReadings, formatReadingsWhy, READINGS_PICTURE } from './format-readings.ts'
import { gaugeKey } from './gauge-key.ts'
import { NoneFound } from './none-found.tsx'
import { Picture } from './picture.tsx'
import { AllGauges } from './readings-all-gauges.tsx'
import { RestsOn } from './rests-on.tsx'
import { useFinding } from './use-finding.ts'

type Gauge = ReadingFindings['items'][number]

/** Readings of each gauge against its band: how they lie, how many low and high. */
export default function ReadingsPage() {
  const finding = useFinding()
  const [{ gauge }, setGauge] = useFilters(['gauge'])
  const query = useQuery(readingsQuery(finding.filters))
  const gauges = query.data && byOutside(query.data.items.filter(({ readings }) => readings > 0))
  const shown = gauges?.find((one) => gaugeKey(one) === gauge) ?? gauges?.[0]
  const title = (one: Gauge) => `${finding.titleOf(one)}: ${one.title}`

  return (
    <FindingPage
      here={paths.readings}
      title="Readings"
      finding={finding}
      query={query}
      answer={gauges && formatReadings(shown)}
      why={gauges && formatReadingsWhy(shown)}
      choices={
        <SelectField
          label="Gauge"
          value={shown ? gaugeKey(shown) : ''}
          onChange={(event) => setGauge({ gauge: event.target.value })}
        >
          {[...new Set(gauges?.map(({ standard }) => standard))].map((standard) => (
            <optgroup key={standard} label={finding.standardOf({ standard })}>
              {gauges
                ?.filter((one) => one.standard === standard)
                .map((one) => (
                  <option key={gaugeKey(one)} value={gaugeKey(one)}>
                    {title(one)}
                  </option>
                ))}
            </optgroup>
          ))}
        </SelectField>
      }
    >
      {shown && gauges && (
        <>
          <Picture
            title={title(shown)}
            note={`${counted(shown.readings, 'reading')}, ${finding.standardOf(shown)}`}
            plot={readingPlot(shown)}
            says={READINGS_PICTURE}
            file={`readings-${shown.measure}-${shown.gauge}`}
            figures={{
              head: ['side', 'from', 'to', 'unit', 'readings'],
              rows: shown.bars.map(({ side, from, to, count }) => [
                side,
                from === null ? null : Number(from),
                to === null ? null : Number(to),
                shown.unit,
                count,
              ]),
            }}
          />
          <Section title="All gauges" note={`${counted(gauges.length, 'gauge')}, most outside the band first`}>
            <AllGauges gauges={gauges} titleOf={title} standardOf={finding.standardOf} />
          </Section>
        </>
      )}
      {gauges?.length === 0 && <NoneFound title="Readings">No reading was taken within these filters.</NoneFound>}
      {query.data && <RestsOn basis={query.data.basis} />}
    </FindingPage>
  )
}
