import { useQuery } from '@tanstack/react-query'
import type { CeremonyDetail } from '#contract/ceremonies/ceremonies.ts'
import { useForecasts } from '../../api/ability/use-forecasts.ts'
import { outlookQuery } from '../../api/ceremonies/ceremonies.ts'
import { testsOnTheWay } from '../../domain/ceremonies/outlook-groups.ts'
import { OutlookList } from '../../parts/ceremonies/outlook-list.tsx'
import { UnitOptions } from '../../parts/soldiers/unit-options.tsx'
import { Empty } from '../../ui/empty.tsx'
import { Failure } from '../../ui/failure.tsx'
import { SelectField } from '../../ui/field.tsx'
import { Section } from '../../ui/section.tsx'
import { counted } from '../../words/format-number.ts'
import type { Words } from './use-words.ts'

interface OutlookProps {
  ceremony: CeremonyDetail
  words: Words
  unitId: string | undefined
  onUnit: (unitId: string) => void
}

/** Who of a unit can stand at this ceremony, who lapses before it, who could make it if they pass, and who cannot and why. */
export function Outlook({ ceremony, words, unitId, onUnit }: OutlookProps) {
  const outlook = useQuery(outlookQuery(ceremony.id, unitId))
  const { data, error } = outlook
  const forecastOf = useForecasts(testsOnTheWay(data?.items ?? []))
  return (
    <Section title="Who in the unit" note="who has what its posts ask for" className="no-print">
      <SelectField
        label="Unit"
        className="outlook-unit"
        value={unitId ?? ''}
        onChange={(event) => onUnit(event.target.value)}
      >
        <option value="">All of them</option>
        <UnitOptions units={words.units} />
      </SelectField>
      {error && <Failure error={error} onRetry={() => outlook.refetch()} />}
      {data?.items.length === 0 && <Empty>Nobody there has what a post asks for.</Empty>}
      {data && data.items.length > 0 && <OutlookList items={data.items} forecastOf={forecastOf} {...words} />}
      {data?.next && (
        <p className="muted small">
          The first {counted(data.items.length, 'row')}; pick a smaller unit for the others.
        </p>
      )}
    </Section>
  )
}
