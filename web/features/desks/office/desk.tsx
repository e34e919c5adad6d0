import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { addDays } from '#calendar/plain-date.ts'
import type { TestDay } from '#contract/test-days/test-days.ts'
import { firstStepsQuery } from '../../../api/first-steps/first-steps.ts'
import { retestsQuery } from '../../../api/readiness/retests.ts'
import { forecastDatesQuery } from '../../../api/readiness-forecast/readiness-forecast.ts'
import { unitsQuery } from '../../../api/soldiers/units.ts'
import { certificationsQuery } from '../../../api/standards/certifications.ts'
import { testDaysQuery } from '../../../api/test-days/test-days.ts'
import { formatFirstSteps, isOpen } from '../../../domain/first-steps/format-first-steps.ts'
import { timeZoneOf } from '../../../domain/soldiers/unit-tree.ts'
import { certificationsOn, certificationTitle } from '../../../domain/standards/titles.ts'
import { AheadLines } from '../../../parts/readiness/ahead-lines.tsx'
import { paths } from '../../../paths.ts'
import { Page } from '../../../ui/page.tsx'
import { Part } from '../../../ui/part.tsx'
import { Section } from '../../../ui/section.tsx'
import { formatDayInFull } from '../../../words/format-day.ts'
import { capital, counted, inWords, plural } from '../../../words/format-number.ts'
import { today as todayIn } from '../../../words/today.ts'
import { ComingDays } from './coming-days.tsx'
import { FirstStepsPart } from './first-steps-part.tsx'
import { useWaiting } from './use-waiting.ts'
import { WaitingList } from './waiting-list.tsx'

/** The training office's desk: what waits for it today. Every figure leads to the list of the same size. */
export default function OfficeDesk() {
  const units = useQuery(unitsQuery)
  const today = todayIn(timeZoneOf(units.data ?? []))
  // From yesterday, whatever the zone, so that the question need not wait for the unit's; what is past is left out below.
  const days = useQuery(testDaysQuery({ from: addDays(todayIn(), -1) }))
  const steps = useQuery(firstStepsQuery)
  const firstSteps = steps.data
  const dates = useQuery(forecastDatesQuery(undefined))
  const terms = useQuery(certificationsQuery).data ?? []
  const titleOf = (code: string) => certificationTitle(certificationsOn(terms, today), code)
  const retests = useQuery(retestsQuery())
  const list = retests.data
  const waiting = useWaiting(list, today)
  const coming = days.data?.filter(({ calledOff, on }) => !calledOff && on >= today).toReversed()
  const free = coming?.reduce((sum, { freeSlots }) => sum + freeSlots, 0)
  // Before the first test day was ever planned, nothing else is worth the first sentence.
  const isBeginning =
    list?.length === 0 && firstSteps?.steps.some((one) => one.step === 'test-days' && isOpen(one)) === true
  return (
    <Page
      title="Desk"
      answer={
        coming &&
        list &&
        !steps.isPending &&
        (isBeginning && firstSteps ? formatFirstSteps(firstSteps) : formatOffice(coming, list.length, free ?? 0, today))
      }
      why={
        list &&
        (isBeginning
          ? 'Each step is done where it leads, and ticks itself.'
          : 'What waits for the training office today, and the slots to book from it.')
      }
      error={days.error ?? (list ? null : retests.error)}
      onRetry={retests.refetch}
    >
      {firstSteps && !firstSteps.complete && <FirstStepsPart firstSteps={firstSteps} isSaid={isBeginning} />}
      {(!isBeginning || waiting.some(({ count = 0 }) => count > 0)) && (
        <Section title="Waiting" note="in the order to do it">
          <WaitingList waiting={waiting} />
        </Section>
      )}
      <Section
        title="Ready on the days ahead"
        note="given lapses, bookings and chances to pass"
        more={<Link href={paths.ahead}>Another day</Link>}
      >
        <Part query={dates}>{dates.data && <AheadLines found={dates.data} today={today} titleOf={titleOf} />}</Part>
      </Section>
      <Section
        title="Test days ahead"
        note="slots, booked and free"
        more={<Link href={paths.testDays}>All test days</Link>}
      >
        <Part query={days}>{coming && <ComingDays coming={coming} today={today} />}</Part>
      </Section>
    </Page>
  )
}

/** The answer on the office's desk. In: test days ahead in order, open retests, free slots ahead, today. */
const formatOffice = (days: readonly TestDay[], open: number, free: number, today: string): string => {
  const backlog =
    open === 0 ? 'No retest is open' : `${capital(inWords(open))} ${plural(open, 'retest is', 'retests are')} open`
  const next = days[0]
  if (!next) return `${backlog}, and no test day is planned.`
  const room = free === 0 ? 'no slot is free' : `${counted(free, 'slot')} ${plural(free, 'is', 'are')} free`
  return `${backlog}; ${room}. Next test day: ${next.on === today ? 'today' : formatDayInFull(next.on, today)}.`
}
