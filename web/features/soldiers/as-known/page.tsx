import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import type { AsKnown } from '#contract/soldiers/as-known.ts'
import { asKnownQuery } from '../../../api/soldiers/as-known.ts'
import { soldierQuery } from '../../../api/soldiers/soldiers.ts'
import { unitsQuery } from '../../../api/soldiers/units.ts'
import { certificationsQuery } from '../../../api/standards/certifications.ts'
import { standardsQuery } from '../../../api/standards/standards.ts'
import type { Sayings } from '../../../domain/soldiers/format-entered.ts'
import { listName } from '../../../domain/soldiers/format-person.ts'
import { timeZoneOf } from '../../../domain/soldiers/unit-tree.ts'
import { certificationTitle, standardTitle } from '../../../domain/standards/titles.ts'
import { addressTo, paths } from '../../../paths.ts'
import { DateField } from '../../../ui/date-field.tsx'
import { Notice } from '../../../ui/notice.tsx'
import { Page } from '../../../ui/page.tsx'
import { Section } from '../../../ui/section.tsx'
import { useFilters } from '../../../ui/use-filters.ts'
import { formatDayWithYear } from '../../../words/format-day.ts'
import { counted } from '../../../words/format-number.ts'
import { today as todayIn } from '../../../words/today.ts'
import { DifferenceList } from './difference-list.tsx'
import { KnownPicture } from './known-picture.tsx'
import './as-known.css'

/** How a soldier stood on a day by what was on record at the end of a day, beside how that day looks now, and why. */
export default function AsKnownPage({ id }: { id: string }) {
  const [filters, setFilters] = useFilters(['on', 'asOf'])
  const soldier = useQuery(soldierQuery(id))
  const units = useQuery(unitsQuery).data ?? []
  const standards = useQuery(standardsQuery).data ?? []
  const certifications = useQuery(certificationsQuery).data ?? []
  const today = todayIn(timeZoneOf(units, soldier.data?.unitId ?? undefined))
  const on = filters.on || today
  const asOf = filters.asOf || on
  const { data, error, refetch } = useQuery(asKnownQuery(id, on, asOf))
  const say: Sayings = {
    certification: (code) => certificationTitle(certifications, code),
    standard: (code) => standardTitle(standards, code),
    day: formatDayWithYear,
  }
  return (
    <Page
      title="As known on a day"
      answer={data && soldier.data && <bdi>{answerOf(data, listName(soldier.data))}</bdi>}
      why={
        data && `What was on record at the end of ${formatDayWithYear(data.knownOn)}, beside all that is on record now.`
      }
      error={data ? null : (error ?? soldier.error)}
      onRetry={() => Promise.all([refetch(), soldier.refetch()])}
      controls={
        <>
          <DateField label="On record at the end of" value={on} onDay={(day) => setFilters({ on: day })} />
          <DateField label="Standing on" value={asOf} onDay={(day) => setFilters({ asOf: day === on ? '' : day })} />
          <Link href={addressTo(paths.candidate, { id })}>Back to the soldier</Link>
        </>
      }
    >
      {error && data && <Notice>{error.message}</Notice>}
      {data && <Pictures data={data} say={say} today={today} />}
    </Page>
  )
}

function Pictures({ data, say, today }: { data: AsKnown; say: Sayings; today: string }) {
  const sheets = [...data.now.sheets, ...data.known.sheets]
  const whichSheet = (id: string) => {
    const sheet = sheets.find((one) => one.id === id)
    return sheet ? `of ${say.day(sheet.day)}, ${say.standard(sheet.standard)},` : 'of another day'
  }
  const shared = { asOf: data.asOf, say }
  return (
    <>
      {!data.complete && (
        <Notice>
          The record of changes does not hold all that this standing rests on: something came in another way. What was
          known may have been more than is shown here.
        </Notice>
      )}
      {data.differences.length > 0 && (
        <Section title="What made the difference" note="in the order in which it was entered">
          <DifferenceList differences={data.differences} whichSheet={whichSheet} say={say} today={today} />
        </Section>
      )}
      <div className="columns halves">
        <KnownPicture
          title="As it was known"
          note={`at the end of ${say.day(data.knownOn)}`}
          picture={data.known}
          other={data.now}
          {...shared}
        />
        <KnownPicture
          title="As it is known now"
          note="the same day"
          picture={data.now}
          other={data.known}
          {...shared}
        />
      </div>
      <p className="caution">
        Both pictures follow the same rules and the same days; only what was on record differs. Where the rules of an
        appeal say which of the two holds, they come first.
      </p>
    </>
  )
}

function answerOf({ asOf, differences }: AsKnown, name: string): string {
  const day = formatDayWithYear(asOf)
  if (differences.length === 0) return `${name}: ${day} looked as it looks now`
  const verb = differences.length === 1 ? 'changes' : 'change'
  return `${name}: ${counted(differences.length, 'later entry', 'later entries')} ${verb} how ${day} looks`
}
