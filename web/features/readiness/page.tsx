import { useInfiniteQuery, useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { ceremoniesQuery, ceremonyQuery } from '../../api/ceremonies/ceremonies.ts'
import { readinessQuery } from '../../api/readiness/readiness.ts'
import { unitsQuery } from '../../api/soldiers/units.ts'
import { certificationsQuery } from '../../api/standards/certifications.ts'
import { standardsQuery } from '../../api/standards/standards.ts'
import { formatPosts, formatWhyShort } from '../../domain/ceremonies/format-ceremony.ts'
import { fullUnitName, timeZoneOf } from '../../domain/soldiers/unit-tree.ts'
import { certificationsOn, certificationTitle, standardTitle } from '../../domain/standards/titles.ts'
import { Formation } from '../../parts/ceremonies/formation.tsx'
import { FilledBy } from '../../parts/first-steps/filled-by.tsx'
import { ReadinessTable } from '../../parts/readiness/readiness-table.tsx'
import { tallyRequired } from '../../parts/readiness/tally-status.ts'
import { addressTo, paths } from '../../paths.ts'
import { Empty } from '../../ui/empty.tsx'
import { More } from '../../ui/more.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { useFilters } from '../../ui/use-filters.ts'
import { formatDayWithYear } from '../../words/format-day.ts'
import { counted } from '../../words/format-number.ts'
import { today as todayIn } from '../../words/today.ts'
import { Controls } from './controls.tsx'
import { formatStand, formatWhyNot } from './format-stand.ts'
import { PlatoonLines } from './platoon-lines.tsx'
import { worthARow } from './worth-a-row.ts'

const FILTERS = ['asOf', 'unitId', 'ceremony', 'certification', 'standing', 'sort'] as const

/** Who can stand: as of a date, or for a ceremony with its posts. */
export default function StandPage() {
  const [filters, setFilters] = useFilters(FILTERS)
  const units = useQuery(unitsQuery).data ?? []
  const allTerms = useQuery(certificationsQuery).data ?? []
  const standards = useQuery(standardsQuery).data ?? []
  const ceremonies = useQuery(ceremoniesQuery).data ?? []
  const ceremony = useQuery(ceremonyQuery(filters.ceremony))
  const head = ceremonies.find(({ id }) => id === filters.ceremony)
  const readiness = useInfiniteQuery(
    readinessQuery({
      asOf: filters.asOf || head?.day,
      unitId: filters.unitId || head?.unitId,
      certification: filters.certification || undefined,
      ...(isStanding(filters.standing) ? { standing: filters.standing } : {}),
      sort: filters.sort || 'state',
    }),
  )
  const shown = ceremony.data?.id === filters.ceremony ? ceremony.data : undefined
  const first = readiness.data?.pages[0]
  const items = readiness.data?.pages.flatMap((page) => page.items).filter(worthARow) ?? []
  const unitId = filters.unitId || head?.unitId
  const today = todayIn(timeZoneOf(units, unitId))
  const asOf = first?.asOf ?? filters.asOf
  const certifications = certificationsOn(allTerms, asOf || today)
  const tally = tallyRequired(first?.counts ?? [])
  const title = filters.certification ? certificationTitle(certifications, filters.certification) : null
  const unitName = unitId ? fullUnitName(units, unitId) : ''
  const stand = first && formatStand(tally, { unit: unitName, certification: title, asOf, today })
  const waitsForCeremony = filters.ceremony !== '' && !shown

  const printAll = async () => {
    let list = readiness
    while (list.hasNextPage) list = await list.fetchNextPage()
    // The rows just fetched are drawn first.
    setTimeout(() => window.print(), 100)
  }
  return (
    <Page
      title="Who can stand"
      answer={waitsForCeremony || !first ? undefined : shown ? formatPosts(shown, today) : stand}
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
          onChange={setFilters}
          asOf={asOf}
          today={today}
          units={units}
          ceremonies={ceremonies}
          certifications={certifications}
          onPrint={first && printAll}
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
          <Section
            title="By platoon"
            note={shown ? stand : 'one mark a soldier required to hold it, in order of state'}
          >
            {first.counts.some((count) => count.required) ? (
              <PlatoonLines
                units={units}
                unitId={unitId}
                counts={first.counts}
                certifications={certifications}
                linkTo={(unit, certification) =>
                  addressTo(paths.stand, { ...present(filters), unitId: unit, certification })
                }
              />
            ) : (
              <Empty>
                <p>
                  Nobody here is required to hold a certification that day. Pick another unit, certification or date.
                </p>
                <FilledBy steps={['certifications', 'roster']} />
              </Empty>
            )}
          </Section>
          {items.length === 0 && isStanding(filters.standing) && (
            <Empty>
              <p>
                {filters.standing === 'can'
                  ? 'Nobody here can stand that day.'
                  : 'Everybody here who must be certified can stand that day.'}
              </p>
              <FilledBy steps={['certifications', 'roster']} />
            </Empty>
          )}
          {items.length > 0 && (
            <Section
              title={SHOWN[filters.standing] ?? 'Soldiers'}
              note={readiness.hasNextPage ? `the first ${counted(items.length, 'row')}` : counted(items.length, 'row')}
            >
              <ReadinessTable
                pages={readiness}
                items={items}
                sorting={{
                  by: filters.sort || 'state',
                  onSort: (sort) => setFilters({ sort: sort === 'state' ? '' : sort }),
                }}
                asOf={asOf}
                today={today}
                units={units}
                certifications={certifications}
                standardTitle={(code) => standardTitle(standards, code)}
                posts={shown ? new Map(shown.formation.map((post) => [post.soldier?.id ?? '', post.title])) : null}
              />
              <More
                hasMore={readiness.hasNextPage}
                loading={readiness.isFetchingNextPage}
                onMore={readiness.fetchNextPage}
              >
                Show more soldiers
              </More>
            </Section>
          )}
        </>
      )}
    </Page>
  )
}

const SHOWN: Record<string, string> = { can: 'Who can stand', cannot: 'Who may not stand' }

const isStanding = (text: string): text is 'can' | 'cannot' => text === 'can' || text === 'cannot'

const present = (filters: Record<string, string>): Record<string, string> =>
  Object.fromEntries(Object.entries(filters).filter(([, value]) => value !== ''))
