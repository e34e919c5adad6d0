import { Link } from 'wouter'
import { formatPosts, formatWhyShort } from '../../domain/ceremonies/format-ceremony.ts'
import { fullUnitName } from '../../domain/soldiers/unit-tree.ts'
import { certificationTitle } from '../../domain/standards/titles.ts'
import { Formation } from '../../parts/ceremonies/formation.tsx'
import { tallyRequired } from '../../parts/readiness/tally-status.ts'
import { addressTo, paths } from '../../paths.ts'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { formatDayWithYear } from '../../words/format-day.ts'
import { Controls } from './controls.tsx'
import { formatStand, formatWhyNot } from './format-stand.ts'
import { SoldiersPart } from './soldiers-part.tsx'
import { UnitLinesPart } from './unit-lines-part.tsx'
import { useStand } from './use-stand.ts'

/** Who can stand: as of a date, or for a ceremony with its posts. */
export default function StandPage() {
  const stand = useStand()
  const { filters, words, ceremony, shown, unitId, readiness, first, items, today, asOf } = stand
  const tally = tallyRequired(first?.totals ?? [])
  const sentence =
    first &&
    formatStand(tally, {
      unit: unitId ? fullUnitName(words.units, unitId) : '',
      certification: filters.certification ? certificationTitle(words.certifications, filters.certification) : null,
      asOf,
      today,
    })
  const waitsForCeremony = filters.ceremony !== '' && !shown
  return (
    <Page
      title="Who can stand"
      answer={waitsForCeremony || !first ? undefined : shown ? formatPosts(shown, today) : sentence}
      why={
        !first
          ? undefined
          : shown
            ? formatWhyShort(shown.formation)
            : formatWhyNot(tally, items, !readiness.hasNextPage && !filters.standing, today)
      }
      error={ceremony.error ?? (first ? null : readiness.error)}
      onRetry={() => (ceremony.error ? ceremony.refetch() : readiness.refetch())}
      busy={readiness.isPlaceholderData || ceremony.isPlaceholderData}
      controls={
        <Controls
          filters={filters}
          onChange={stand.setFilters}
          asOf={asOf}
          today={today}
          units={words.units}
          ceremonies={stand.ceremonies}
          certifications={words.certifications}
          onPrint={first && stand.printAll}
        />
      }
    >
      <p className="print-only muted">As of {formatDayWithYear(asOf || today)}</p>
      {shown && (
        <Section
          title="Posts"
          note="as they form up, front rank first, seen from the front"
          more={<Link href={addressTo(paths.ceremony, { id: shown.id })}>Name soldiers, alternates, roster</Link>}
        >
          <Formation posts={shown.formation} />
        </Section>
      )}
      {first && (
        <>
          <UnitLinesPart
            stand={stand}
            first={first}
            note={shown ? sentence : 'one mark a soldier required to hold it, in order of state'}
          />
          <SoldiersPart stand={stand} />
        </>
      )}
    </Page>
  )
}
