import { useInfiniteQuery, useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { addDays } from '#calendar/plain-date.ts'
import { firstStepsQuery } from '../../../api/first-steps/first-steps.ts'
import { keptGosQuery, retestsQuery } from '../../../api/readiness/retests.ts'
import { forecastDatesQuery } from '../../../api/readiness-forecast/readiness-forecast.ts'
import { openAmendmentsQuery, openAppealsQuery } from '../../../api/sheets/appeals.ts'
import { duplicatesQuery } from '../../../api/sheets/duplicates.ts'
import { secondGradingsQuery } from '../../../api/sheets/second-gradings.ts'
import { sheetsQuery } from '../../../api/sheets/sheets.ts'
import { listsQuery } from '../../../api/soldiers/arms-and-grades.ts'
import { unitsQuery } from '../../../api/soldiers/units.ts'
import { certificationsQuery } from '../../../api/standards/certifications.ts'
import { testDaysQuery } from '../../../api/test-days/test-days.ts'
import { timeZoneOf } from '../../../domain/soldiers/unit-tree.ts'
import { certificationsOn, certificationTitle } from '../../../domain/standards/titles.ts'
import { AheadLines } from '../../../parts/readiness/ahead-lines.tsx'
import { addressTo, paths } from '../../../paths.ts'
import { Empty } from '../../../ui/empty.tsx'
import { Page } from '../../../ui/page.tsx'
import { Part } from '../../../ui/part.tsx'
import { Section } from '../../../ui/section.tsx'
import { Table } from '../../../ui/table.tsx'
import { formatDay } from '../../../words/format-day.ts'
import { figure } from '../../../words/format-number.ts'
import { today as todayIn } from '../../../words/today.ts'
import { FirstStepsPart } from './first-steps-part.tsx'
import { formatOffice } from './format-office.ts'
import { type Waiting, WaitingList } from './waiting-list.tsx'

const DAYS_SHOWN = 8
const DUE_SOON_DAYS = 14
const HELD_AT_ONCE = 500

/** The training office's desk: what waits for it today. Every figure leads to the list of the same size. */
export default function OfficeDesk() {
  const units = useQuery(unitsQuery)
  const today = todayIn(timeZoneOf(units.data ?? []))
  // From yesterday, whatever the zone, so that the question need not wait for the unit's; what is past is left out below.
  const days = useQuery(testDaysQuery({ from: addDays(todayIn(), -1) }))
  const held = useInfiniteQuery(sheetsQuery({ state: 'held' }, HELD_AT_ONCE))
  const differing = useInfiniteQuery(secondGradingsQuery(true))
  const twice = useQuery(duplicatesQuery).data
  const amendments = useQuery(openAmendmentsQuery)
  const appeals = useQuery(openAppealsQuery)
  const lists = useQuery(listsQuery).data
  const firstSteps = useQuery(firstStepsQuery).data
  const dates = useQuery(forecastDatesQuery(undefined))
  const terms = useQuery(certificationsQuery).data ?? []
  const titleOf = (code: string) => certificationTitle(certificationsOn(terms, today), code)
  const retests = useQuery(retestsQuery())
  const kept = useQuery(keptGosQuery())
  const list = retests.data
  const pastDue = list?.filter((one) => one.pastDue).length
  const dueSoon = list?.filter((one) => !one.pastDue && one.due <= addDays(today, DUE_SOON_DAYS)).length
  const needReview = list?.filter((one) => one.needsReview).length
  const coming = days.data?.filter(({ calledOff, on }) => !calledOff && on >= today).toReversed()
  const free = coming?.reduce((sum, { freeSlots }) => sum + freeSlots, 0)
  const heldCount = held.data?.pages.flatMap(({ items }) => items).length
  const waiting: Waiting[] = [
    {
      one: 'sheet held',
      many: 'sheets held',
      todo: 'Decide them first: until then they count for nothing.',
      count: heldCount,
      to: paths.held,
    },
    {
      one: 'amendment proposed',
      many: 'amendments proposed',
      todo: 'Confirm or refuse what somebody else proposed.',
      count: amendments.data?.length,
      to: paths.contested,
    },
    {
      one: 'attempt on which two graders differ',
      many: 'attempts on which two graders differ',
      todo: 'Talk to both; amend the first sheet where it is wrong.',
      count: differing.data?.pages.flatMap(({ items }) => items).length,
      to: paths.twiceGraded,
    },
    {
      one: 'test that may have been sent twice',
      many: 'tests that may have been sent twice',
      todo: 'Choose the sheet that stands.',
      count: twice?.filter(({ isProposed }) => !isProposed).length,
      to: paths.twiceGraded,
    },
    {
      one: 'open appeal',
      many: 'open appeals',
      todo: 'Answer them.',
      count: appeals.data?.length,
      to: paths.contested,
    },
    {
      one: 'grade or arm that is new',
      many: 'grades and arms that are new',
      todo: 'They came in with something else. Say whether they are right.',
      count: lists && [...lists.grades, ...lists.arms].filter(({ confirmed }) => !confirmed).length,
      to: paths.armsAndGrades,
    },
    {
      one: 'retest that needs a review first',
      many: 'retests that need a review first',
      todo: 'Talk it over, and record it, before a retest is booked.',
      count: needReview,
      to: addressTo(paths.retests, { state: 'review' }),
    },
    {
      one: 'retest past due',
      many: 'retests past due',
      todo: 'Book the next free slot.',
      count: pastDue,
      to: addressTo(paths.retests, { state: 'past-due' }),
    },
    {
      one: `retest due within ${DUE_SOON_DAYS} days`,
      many: `retests due within ${DUE_SOON_DAYS} days`,
      todo: 'Book a day before they are due.',
      count: dueSoon,
      to: addressTo(paths.retests, { state: 'due-soon' }),
    },
    {
      one: 'GO that stops counting within 30 days',
      many: 'GOs that stop counting within 30 days',
      todo: 'Test before then what the certification lacks.',
      count: kept.data?.length,
      to: addressTo(paths.retests, { view: 'kept' }),
    },
  ]
  return (
    <Page
      title="Desk"
      answer={coming && list && formatOffice(coming, list.length, free ?? 0, today)}
      why={list && 'What waits for the training office today, and the slots to book from it.'}
      error={days.error ?? (list ? null : retests.error)}
      onRetry={retests.refetch}
    >
      {firstSteps && !firstSteps.complete && <FirstStepsPart firstSteps={firstSteps} />}
      <Section title="Waiting" note="in the order to do it">
        <WaitingList waiting={waiting} />
      </Section>
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
        <Part query={days}>
          {coming?.length === 0 && (
            <Empty>
              No test day is planned. <Link href={paths.testDays}>Plan one</Link>, make its slots, and book the backlog.
            </Empty>
          )}
          {coming && coming.length > 0 && (
            <Table
              caption="Test days ahead"
              rows={coming.slice(0, DAYS_SHOWN)}
              rowKey={({ id }) => id}
              columns={[
                {
                  head: 'Day',
                  tight: true,
                  cell: ({ id, on }) => (
                    <Link href={addressTo(paths.testDay, { id })}>
                      <b>{formatDay(on, today)}</b>
                    </Link>
                  ),
                },
                { head: 'Place', bare: true, cell: ({ place }) => <bdi>{place}</bdi> },
                { head: 'Slots', numeric: true, cell: ({ slots }) => figure(slots) },
                { head: 'Booked', numeric: true, cell: ({ bookings }) => figure(bookings) },
                {
                  head: 'Free',
                  numeric: true,
                  cell: ({ id, freeSlots }) =>
                    freeSlots === 0 ? (
                      'none'
                    ) : (
                      <Link href={addressTo(paths.retests, { book: id })}>{figure(freeSlots)} to fill</Link>
                    ),
                },
              ]}
            />
          )}
        </Part>
      </Section>
    </Page>
  )
}
