import { useQuery } from '@tanstack/react-query'
import { useEffect } from 'react'
import { Link } from 'wouter'
import type { Session } from '#contract/accounts/session.ts'
import { useForecasts } from '../../../api/ability/use-forecasts.ts'
import { sessionQuery } from '../../../api/accounts/session.ts'
import { coachingQuery } from '../../../api/coaching/coaching.ts'
import { unitsQuery } from '../../../api/soldiers/units.ts'
import { certificationsQuery } from '../../../api/standards/certifications.ts'
import { standardsQuery } from '../../../api/standards/standards.ts'
import { OnThisPhone } from '../../../device/sheet/on-this-phone.tsx'
import { PracticeHere } from '../../../device/sheet/practice-here.tsx'
import { dropPagesOfOthers } from '../../../device/store/page-store.ts'
import { useDay } from '../../../device/store/use-day.ts'
import { useKeepPage } from '../../../device/store/use-keep-page.ts'
import { useKeepStudies } from '../../../device/store/use-study.ts'
import { timeZoneOf } from '../../../domain/soldiers/unit-tree.ts'
import {
  certificationsOn,
  certificationTitle,
  faultTitle,
  measureTitle,
  standardTitle,
} from '../../../domain/standards/titles.ts'
import { addressTo, paths } from '../../../paths.ts'
import { Empty } from '../../../ui/empty.tsx'
import { Notice } from '../../../ui/notice.tsx'
import { Page } from '../../../ui/page.tsx'
import { Section } from '../../../ui/section.tsx'
import { counted } from '../../../words/format-number.ts'
import { CandidateCard } from './candidate-card.tsx'
import { drillByGain, formatFirst, formatTooMany, formatWhy, inOrderOfTest, testsAheadOf } from './format-desk.ts'
import './desk.css'
import { OwnPart } from './own-part.tsx'

/** The sponsor's desk: what each candidate keeps failing, what to drill first, when the test is, and what to see to. */
export default function SponsorDesk() {
  const session = useQuery(sessionQuery).data
  return session ? <Desk session={session} /> : null
}

function Desk({ session: { accountId, soldierId } }: { session: Session }) {
  // Kept on this device, so that practice works without a network.
  useDay(accountId)
  const coaching = useQuery(coachingQuery)
  const standards = useQuery(standardsQuery)
  const terms = useQuery(certificationsQuery)
  const units = useQuery(unitsQuery).data ?? []
  const forecastOf = useForecasts(coaching.data?.items.flatMap(testsAheadOf) ?? [], { drill: true })
  useKeepStudies(accountId, coaching.data?.items.flatMap(testsAheadOf))
  useKeepPage(accountId, coaching.data ? 'sponsor' : '')
  useDropOthers(accountId, soldierId, coaching.data?.items)
  const error = coaching.error ?? standards.error ?? terms.error
  if (!coaching.data || !standards.data || !terms.data) {
    return <Page title="Desk" error={error} onRetry={() => location.reload()} />
  }
  const { own, asOf: today } = coaching.data
  const items = coaching.data.items.map((one) => drillByGain(one, forecastOf))
  const certifications = certificationsOn(terms.data, today)
  const titles = {
    standard: (code: string) => standardTitle(standards.data, code),
    measure: (standard: string, measure: string) => measureTitle(standards.data, standard, measure),
    fault: (standard: string, measure: string, fault: string) => faultTitle(standards.data, standard, measure, fault),
    certification: (code: string) => certificationTitle(certifications, code),
  }
  const zoneOf = (unitId: string | null) => timeZoneOf(units, unitId)
  const tooMany = formatTooMany(coaching.data, today)
  const [next] = inOrderOfTest(items)
  return (
    <Page
      title="Desk"
      answer={<bdi>{formatFirst(items, titles)}</bdi>}
      why={formatWhy(items, zoneOf(next?.unitId ?? null), titles, today)}
    >
      {tooMany && (
        <Notice>
          <p>{tooMany}</p>
        </Notice>
      )}
      <PracticeHere accountId={accountId} />
      <OnThisPhone accountId={accountId} />
      <Section
        title="Candidates"
        note={items.length > 0 ? `${counted(items.length, 'candidate')}, the one tested next first` : undefined}
        more={
          items.length > 0 && (
            <>
              <Link href={paths.sponsors}>What all of them fail</Link>
              <Link href={addressTo(paths.enter, { purpose: 'practice' })}>Enter practice from paper</Link>
            </>
          )
        }
      >
        {items.length === 0 && (
          <Empty>
            <p>You have no candidates. When the training office names you as somebody’s sponsor, they stand here.</p>
          </Empty>
        )}
        {inOrderOfTest(items).map((candidate) => (
          <CandidateCard
            key={candidate.candidateId}
            candidate={candidate}
            certificationTitle={titles.certification}
            standardTitle={titles.standard}
            measureTitle={titles.measure}
            faultTitle={titles.fault}
            forecastOf={forecastOf}
            sponsorId={soldierId}
            timeZone={zoneOf(candidate.unitId)}
            today={today}
          />
        ))}
      </Section>
      {own.length > 0 && <OwnPart own={own} soldierId={soldierId} titleOf={titles.certification} today={today} />}
      <p className="caution">
        {standards.data.some(({ arms }) => arms.length > 0)
          ? 'Edged weapons and all other arms are drilled at the unit’s own safety distance and stop on “cease”.'
          : 'On “cease” everyone stops, at once.'}{' '}
        Long standing, heat and locked knees make people faint: rest, water, and medical help within reach come before
        any drill.
      </p>
    </Page>
  )
}

/** Lets go of kept pages of who is not this sponsor's candidate any more; one's own stays. */
function useDropOthers(accountId: string, own: string | null, items: readonly { candidateId: string }[] | undefined) {
  const ids = items && [...items.map(({ candidateId }) => candidateId), own ?? ''].join(' ')
  useEffect(() => {
    if (ids !== undefined) dropPagesOfOthers(accountId, ids.split(' ')).catch(() => undefined)
  }, [accountId, ids])
}
