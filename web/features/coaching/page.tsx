import { useInfiniteQuery, useQuery } from '@tanstack/react-query'
import { sessionQuery } from '../../api/accounts/session.ts'
import { practicesQuery } from '../../api/coaching/practices.ts'
import { useMay } from '../../api/use-may.ts'
import { candidatePage } from '../../device/store/kept-page.ts'
import { useKeepPage } from '../../device/store/use-keep-page.ts'
import { byGain } from '../../domain/ability/format-forecast.ts'
import { formatLastPractised } from '../../domain/coaching/format-practice.ts'
import { listName } from '../../domain/soldiers/format-person.ts'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { useFilters } from '../../ui/use-filters.ts'
import { formatDayWithYear } from '../../words/format-day.ts'
import { counted } from '../../words/format-number.ts'
import { AheadSection } from './ahead-section.tsx'
import { AttemptsSection } from './attempts-section.tsx'
import { answerOf, whyOf } from './candidate-heading.ts'
import { DrillSection } from './drill-section.tsx'
import { FaultList } from './fault-list.tsx'
import { ForecastSection } from './forecast-section.tsx'
import { NotesSection } from './notes-section.tsx'
import { PageControls } from './page-controls.tsx'
import { PapersLine } from './papers-line.tsx'
import { PractisedSection } from './practised-section.tsx'
import { recordLines } from './record-lines.ts'
import { RecordList } from './record-list.tsx'
import { SoldierSection } from './soldier-section.tsx'
import { Standing } from './standing.tsx'
import { type Candidate, useCandidate } from './use-candidate.ts'
import { formatMostNoted } from './view-standard.ts'
import { WordsSection } from './words-section.tsx'

/** One soldier: how they stand, their attempts as strips, readings, faults, and what else is on record. */
export default function CandidatePage({ id }: { id: string }) {
  const [filters, setFilters] = useFilters(['standard'])
  const { candidate, error } = useCandidate(id, filters.standard)
  const accountId = useQuery(sessionQuery).data?.accountId ?? ''
  const isMine = candidate !== null && (candidate.isOwn || candidate.isSponsor)
  useKeepPage(accountId, isMine ? candidatePage(id) : '')
  if (!candidate) return <Page title="Candidate" error={error} onRetry={() => location.reload()} />
  return (
    <Page
      title={listName(candidate.soldier)}
      answer={<bdi>{answerOf(candidate)}</bdi>}
      why={whyOf(candidate)}
      controls={<PageControls candidate={candidate} onChoose={(standard) => setFilters({ standard })} />}
    >
      <p className="print-only muted">As of {formatDayWithYear(candidate.today)}</p>
      <div className="columns">
        <Section title="Certifications" note="as of today">
          <Standing {...candidate} standardTitle={candidate.titles.standard} />
        </Section>
        <SoldierSection {...candidate} />
      </div>
      <WordsSection {...candidate} />
      <Prospects candidate={candidate} />
      <AttemptsSection {...candidate} />
      <Coached candidate={candidate} />
      <p className="caution">
        A result is a training record, not a medical or disciplinary finding. Unit procedure, the safety officer and
        licensed medical staff come before anything written here.
      </p>
    </Page>
  )
}

/** What is to come: what they are due for, their chance, and what to drill. */
function Prospects({ candidate }: { candidate: Candidate }) {
  const mayCheck = useMay('see-findings')
  const { coaching, forecast, view, code, today } = candidate
  const practices =
    useInfiniteQuery(practicesQuery(candidate.soldier.id)).data?.pages.flatMap(({ items }) => items) ?? []
  return (
    <>
      {coaching && (
        <AheadSection
          coaching={coaching}
          standardTitle={candidate.titles.standard}
          readerId={candidate.readerId}
          timeZone={candidate.timeZone}
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
          mostNoted={(measure) => formatMostNoted(view, measure)}
          practised={(measure) => formatLastPractised(practices, code, measure, today)}
          today={today}
        />
      )}
    </>
  )
}

/** What coaching has left: practice, notes, faults, and what is on record beside the sheets. */
function Coached({ candidate }: { candidate: Candidate }) {
  const session = useQuery(sessionQuery).data
  const { soldier, code, view, standards, titles, isSponsor, isOwn, today } = candidate
  const isOffice = session?.roles.includes('office') === true
  const mayCoach = isSponsor || isOffice
  return (
    <>
      <PractisedSection candidate={candidate} accountId={session?.accountId} mayCoach={mayCoach} />
      {candidate.coaching && (
        <NotesSection
          candidateId={soldier.id}
          standard={code}
          standards={standards}
          mayWrite={mayCoach}
          today={today}
        />
      )}
      <div className="columns halves">
        {view.faults.length > 0 && (
          <Section title="Faults" note={`noted on trials of ${counted(view.tests, 'test')}`}>
            <FaultList faults={view.faults} measureTitle={view.measureTitle} faultTitle={view.faultTitle} />
          </Section>
        )}
        <Section title="On record" note="beside the sheets">
          <RecordList lines={recordLines(soldier, titles)} />
        </Section>
      </div>
      <PapersLine
        candidateId={soldier.id}
        statuses={candidate.statuses}
        titleOf={titles.certification}
        mayTakeOut={isOwn || isOffice}
      />
    </>
  )
}
