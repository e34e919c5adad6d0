import { useInfiniteQuery, usePrefetchInfiniteQuery, useQuery } from '@tanstack/react-query'
import { lazy, Suspense } from 'react'
import { Link } from 'wouter'
import type { SoldierDetail } from '#contract/soldiers/soldiers.ts'
import { forecastsQuery } from '../../api/ability/forecasts.ts'
import { sessionQuery } from '../../api/accounts/session.ts'
import { candidateCoachingQuery, coachingNotesQuery } from '../../api/coaching/coaching.ts'
import { retestsQuery } from '../../api/readiness/retests.ts'
import { sheetsQuery } from '../../api/sheets/sheets.ts'
import { soldierQuery, soldierStatusQuery } from '../../api/soldiers/soldiers.ts'
import { unitsQuery } from '../../api/soldiers/units.ts'
import { certificationsQuery } from '../../api/standards/certifications.ts'
import { standardsQuery } from '../../api/standards/standards.ts'
import { useIsImpartial } from '../../api/use-impartial.ts'
import { useMay } from '../../api/use-may.ts'
import { byGain } from '../../domain/ability/say-forecast.ts'
import { listName, shortName } from '../../domain/soldiers/say-person.ts'
import { fullUnitName, timeZoneOf } from '../../domain/soldiers/unit-tree.ts'
import { certificationsOn, certificationTitle, standardTitle } from '../../domain/standards/titles.ts'
import { addressTo, gradePaths, paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { Empty } from '../../ui/empty.tsx'
import { SelectField } from '../../ui/field.tsx'
import { More } from '../../ui/more.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { useFilters } from '../../ui/use-filters.ts'
import { sayDay, sayDayWithYear } from '../../words/say-day.ts'
import { counted } from '../../words/say-number.ts'
import { today as todayIn } from '../../words/today.ts'
import { AheadSection } from './ahead-section.tsx'
import { AttemptsTable } from './attempts-table.tsx'
import { DrillSection } from './drill-section.tsx'
import { FaultList } from './fault-list.tsx'
import { ForecastSection } from './forecast-section.tsx'
import { NotesSection } from './notes-section.tsx'
import { PapersLine } from './papers-line.tsx'
import { PracticeSection } from './practice-section.tsx'
import { Readings } from './readings.tsx'
import { recordLines } from './record-lines.ts'
import { RecordList } from './record-list.tsx'
import { sayCandidate } from './say-candidate.ts'
import { sayOwnStanding } from './say-own-standing.ts'
import { SponsorControl } from './sponsor-control.tsx'
import { standardsTaken } from './standards-taken.ts'
import { Standing } from './standing.tsx'
import { sayMostNoted, viewStandard } from './view-standard.ts'

const OnThisPhone = lazy(() =>
  import('../../device/sheet/on-this-phone.tsx').then(({ OnThisPhone }) => ({ default: OnThisPhone })),
)

/** One soldier: how they stand, their attempts as strips, readings, faults, and what else is on record. */
export default function CandidatePage({ id }: { id: string }) {
  const [filters, setFilters] = useFilters(['standard'])
  const soldier = useQuery(soldierQuery(id))
  const status = useQuery(soldierStatusQuery(id))
  const sheetPages = useInfiniteQuery(sheetsQuery({ soldierId: id, purpose: 'test' }))
  // Asked for at once, though shown once the rest is there.
  usePrefetchInfiniteQuery(sheetsQuery({ soldierId: id, purpose: 'practice' }))
  usePrefetchInfiniteQuery(coachingNotesQuery(id))
  const units = useQuery(unitsQuery).data ?? []
  const standardList = useQuery(standardsQuery)
  const terms = useQuery(certificationsQuery)
  const unitId = soldier.data?.unitId ?? undefined
  const retests = useQuery(retestsQuery({ soldierId: id })).data ?? []
  const coaching = useQuery(candidateCoachingQuery(id, filters.standard)).data
  const forecasts = useQuery(forecastsQuery(id)).data?.items
  const session = useQuery(sessionQuery).data
  const mayCheck = useMay('see-findings')

  const error = soldier.error ?? status.error ?? sheetPages.error ?? standardList.error ?? terms.error
  const standards = standardList.data
  const today = todayIn(timeZoneOf(units, unitId))
  const sheets = sheetPages.data?.pages.flatMap(({ items }) => items)
  if (!soldier.data || !status.data || !sheets || !standards || !terms.data) {
    return <Page title="Candidate" error={error} onRetry={() => location.reload()} />
  }

  const certifications = certificationsOn(terms.data, today)
  const titles = {
    certification: (code: string) => certificationTitle(certifications, code),
    standard: (code: string) => standardTitle(standards, code),
    unit: (unit: string) => fullUnitName(units, unit),
    day: (day: string) => sayDay(day, today),
  }
  const ahead = coaching?.ahead.map(({ standard }) => standard) ?? []
  const taken = [...new Set([...ahead, ...standardsTaken(sheets, retests)])]
  const code = filters.standard || coaching?.drill?.standard || taken[0] || ''
  const isSponsor = soldier.data.sponsors.some(
    ({ sponsorId, from, to }) => sponsorId === session?.soldierId && from <= today && (to === null || today <= to),
  )
  const mayCoach = isSponsor || session?.roles.includes('office') === true
  const forecast = forecasts?.find(({ standard }) => standard === code)
  const view = viewStandard(code, sheets, retests, standards, today)
  const name = shortName(soldier.data)
  const isOwn = session?.soldierId === id
  const about = (certification: string) => {
    const arms = certifications.find((one) => one.code === certification)?.arms ?? []
    return arms.length === 1 ? `with the ${arms[0]}` : `in ${titles.certification(certification)}`
  }

  return (
    <Page
      title={listName(soldier.data)}
      answer={
        <bdi>
          {isOwn
            ? sayOwnStanding({
                statuses: status.data,
                ahead: coaching?.ahead ?? [],
                about,
                standardTitle: titles.standard,
                today,
              })
            : sayCandidate({ name, statuses: status.data, sheets, titles, shown: code, today })}
        </bdi>
      }
      why={taken.length > 1 && view.why ? `${view.title}: ${view.why}` : view.why}
      controls={
        <>
          {taken.length > 1 && (
            <SelectField
              label="Standard"
              value={code}
              onChange={(event) => setFilters({ standard: event.target.value })}
            >
              {taken.map((standard) => (
                <option key={standard} value={standard}>
                  {titles.standard(standard)}
                </option>
              ))}
            </SelectField>
          )}
          {code !== '' && <Link href={addressTo(paths.study, { id: code, candidate: id })}>Study sheet</Link>}
          <Button className="push" onClick={() => window.print()}>
            Print
          </Button>
        </>
      }
    >
      <p className="print-only muted">As of {sayDayWithYear(today)}</p>
      <div className="columns">
        <Section title="Certifications" note="as of today">
          <Standing
            statuses={status.data}
            retests={retests}
            ahead={coaching?.ahead ?? []}
            certifications={certifications}
            standardTitle={titles.standard}
            today={today}
          />
        </Section>
        <div>
          <Section title="Soldier">
            <p>
              <b>
                <bdi>{listName(soldier.data)}</bdi>
              </b>{' '}
              <span className="muted">{soldier.data.rosterNumber}</span>
            </p>
            <p>
              {unitId
                ? fullUnitName(units, unitId)
                : `Left on ${soldier.data.left ? titles.day(soldier.data.left.on) : 'an earlier day'}`}
            </p>
            <p className="muted">Carries {soldier.data.arms.join(', ') || 'no arm on record'}</p>
            {unitId && <SuspendLink soldier={soldier.data} today={today} />}
          </Section>
          <SponsorControl soldier={soldier.data} today={today} />
        </div>
      </div>
      {coaching && (
        <AheadSection
          coaching={coaching}
          standardTitle={titles.standard}
          readerId={session?.soldierId ?? null}
          timeZone={timeZoneOf(units, unitId)}
          today={today}
        />
      )}
      {forecast && (
        <ForecastSection forecast={forecast} measureTitle={view.measureTitle} mayCheck={mayCheck} today={today} />
      )}
      {coaching?.drill?.standard === code && (
        <DrillSection
          drill={{ ...coaching.drill, items: byGain(coaching.drill.items, forecast) }}
          byGain={forecast !== undefined}
          measureTitle={view.measureTitle}
          mostNoted={(measure) => sayMostNoted(view, measure)}
          today={today}
        />
      )}
      <Section title={view.title} note="one bar a trial: tall correct, short and hollow incorrect, a dot not called">
        {view.rows.length === 0 ? (
          <Empty>
            <p>{name} has no sheet yet. The first one shows here as soon as it is entered.</p>
          </Empty>
        ) : (
          <AttemptsTable rows={view.rows} measures={view.measures} today={today} />
        )}
        <More
          hasMore={sheetPages.hasNextPage}
          loading={sheetPages.isFetchingNextPage}
          onMore={sheetPages.fetchNextPage}
        >
          Show earlier sheets
        </More>
      </Section>
      {view.gauges.length > 0 && (
        <Section title="Readings" note="dots on their band, hollow outside it">
          <div className="readings-grid">
            {view.gauges.map((gauge) => (
              <Readings key={gauge.code} gauge={gauge} today={today} />
            ))}
          </div>
        </Section>
      )}
      <PracticeSection
        candidateId={id}
        standard={code}
        standards={standards}
        today={today}
        unsent={
          isSponsor && session ? (
            <Suspense>
              <OnThisPhone accountId={session.accountId} unsentOf={id} />
            </Suspense>
          ) : null
        }
        more={
          mayCoach && (
            <>
              {isSponsor && <Link href={addressTo(gradePaths.start, { coached: id })}>Practise</Link>}{' '}
              <Link href={addressTo(paths.enter, { purpose: 'practice', candidate: id })}>
                Enter practice from paper
              </Link>
            </>
          )
        }
      />
      {coaching && (
        <NotesSection candidateId={id} standard={code} standards={standards} mayWrite={mayCoach} today={today} />
      )}
      <div className="columns halves">
        {view.faults.length > 0 && (
          <Section title="Faults" note={`noted on trials of ${counted(view.tests, 'test')}`}>
            <FaultList faults={view.faults} measureTitle={view.measureTitle} faultTitle={view.faultTitle} />
          </Section>
        )}
        <Section title="On record" note="beside the sheets">
          <RecordList lines={recordLines(soldier.data, titles)} />
        </Section>
      </div>
      {(session?.soldierId === id || session?.roles.includes('office')) && (
        <PapersLine candidateId={id} statuses={status.data} titleOf={titles.certification} />
      )}
      <p className="caution">
        A result is a training record, not a medical or disciplinary finding. Unit procedure, the safety officer and
        licensed medical staff come before anything written here.
      </p>
    </Page>
  )
}

/** For whoever suspends, and is impartial to this soldier. */
function SuspendLink({ soldier, today }: { soldier: SoldierDetail; today: string }) {
  const maySuspend = useMay('suspend')
  const isImpartial = useIsImpartial(soldier, today)
  if (!maySuspend || !isImpartial) return null
  return (
    <p className="no-print">
      <Link href={addressTo(paths.suspensions, { soldier: soldier.id })}>Suspend, or lift a suspension</Link>
    </p>
  )
}
