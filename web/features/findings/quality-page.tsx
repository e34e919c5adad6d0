import { useQuery } from '@tanstack/react-query'
import type { QualityFindings } from '#contract/findings/quality.ts'
import { qualityQuery } from '../../api/findings/findings-deep.ts'
import { paths } from '../../paths.ts'
import { SelectField } from '../../ui/field.tsx'
import { useFilters } from '../../ui/use-filters.ts'
import { eraTitle } from './era-title.ts'
import { FindingPage } from './finding-page.tsx'
import { formatQuality, formatQualityWhy } from './format-quality.ts'
import { NoneFound } from './none-found.tsx'
import { MeasuresPicture } from './quality-picture.tsx'
import { MeasuresTable } from './quality-table.tsx'
import { RestsOn } from './rests-on.tsx'
import { useFinding } from './use-finding.ts'

type Quality = QualityFindings['items'][number]
const keyOf = ({ standard, versions }: Quality): string => `${standard}/${versions.join('.')}`

/** How well a standard works as a test, and what each measure adds. */
export default function QualityPage() {
  const finding = useFinding()
  const [{ test }, setTest] = useFilters(['test'])
  const query = useQuery(qualityQuery(finding.filters))
  const items = query.data?.items
  const shown = items?.find((one) => keyOf(one) === test) ?? [...(items ?? [])].sort((a, b) => b.sheets - a.sheets)[0]
  const titleOf = (one: Quality) => eraTitle(finding.standardOf(one), one)
  const nameOf = (measure: string) =>
    shown ? finding.titleOf({ standard: shown.standard, measure, versions: [], current: true }) : measure
  const measures = [...(shown?.measures ?? [])]
    .sort((a, b) => (b.itemRest.value ?? -2) - (a.itemRest.value ?? -2))
    .map((measure) => ({ ...measure, name: nameOf(measure.measure) }))

  return (
    <FindingPage
      here={paths.quality}
      title="Standards as tests"
      finding={finding}
      firstTests
      query={query}
      answer={items && formatQuality(shown, shown ? titleOf(shown) : '')}
      why={items && formatQualityWhy(shown)}
      choices={
        items &&
        items.length > 1 && (
          <SelectField
            label="Test"
            value={shown ? keyOf(shown) : ''}
            onChange={(event) => setTest({ test: event.target.value })}
          >
            {items.map((one) => (
              <option key={keyOf(one)} value={keyOf(one)}>
                {titleOf(one)}
              </option>
            ))}
          </SelectField>
        )
      }
    >
      {shown && (
        <>
          <MeasuresPicture shown={shown} measures={measures} title={titleOf(shown)} />
          <MeasuresTable measures={measures} title={titleOf(shown)} />
        </>
      )}
      {items && !shown && <NoneFound title="Measures">No counted test lies within these filters.</NoneFound>}
      {query.data && <RestsOn basis={query.data.basis} />}
    </FindingPage>
  )
}
