import { useInfiniteQuery, useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { addDays } from '#calendar/plain-date.ts'
import { openAmendmentsQuery, openAppealsQuery } from '../../api/contested.ts'
import { keptGosQuery, retestsQuery } from '../../api/retests.ts'
import { secondGradingsQuery } from '../../api/second-gradings.ts'
import { sheetsQuery } from '../../api/sheets.ts'
import { testDaysQuery } from '../../api/test-days.ts'
import { unitsQuery } from '../../api/units.ts'
import { timeZoneOf } from '../../model/unit-tree.ts'
import { Empty } from '../../ui/empty.tsx'
import { Page } from '../../ui/page.tsx'
import { Part } from '../../ui/part.tsx'
import { Section } from '../../ui/section.tsx'
import { Table } from '../../ui/table.tsx'
import { sayDay } from '../../words/say-day.ts'
import { figure } from '../../words/say-number.ts'
import { today as todayIn } from '../../words/today.ts'
import { sayOffice } from './say-office.ts'
import './figure-list.css'

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
  const amendments = useQuery(openAmendmentsQuery)
  const appeals = useQuery(openAppealsQuery)
  const retests = useQuery(retestsQuery())
  const kept = useQuery(keptGosQuery())
  const list = retests.data
  const pastDue = list?.filter((one) => one.pastDue).length
  const dueSoon = list?.filter((one) => !one.pastDue && one.due <= addDays(today, DUE_SOON_DAYS)).length
  const needReview = list?.filter((one) => one.needsReview).length
  const coming = days.data?.filter(({ calledOff, on }) => !calledOff && on >= today).toReversed()
  const free = coming?.reduce((sum, { freeSlots }) => sum + freeSlots, 0)
  const heldCount = held.data?.pages.flatMap(({ items }) => items).length
  const figures: [string, number | undefined, string][] = [
    ['sheets held', heldCount, '/held'],
    ['amendments proposed', amendments.data?.length, '/contested'],
    [
      'attempts on which two graders differ',
      differing.data?.pages.flatMap(({ items }) => items).length,
      '/twice-graded',
    ],
    ['appeals open', appeals.data?.length, '/contested'],
    ['retests past due', pastDue, '/retests?state=past-due'],
    [`retests due within ${DUE_SOON_DAYS} days`, dueSoon, '/retests?state=due-soon'],
    ['retests that need a review first', needReview, '/retests?state=review'],
    ['GOs that stop counting within 30 days', kept.data?.length, '/retests?view=kept'],
  ]
  return (
    <Page
      title="Desk"
      answer={coming && list && sayOffice(coming, list.length, free ?? 0, today)}
      why={list && 'What waits for the training office today. Each figure leads to its list.'}
      error={days.error ?? (list ? null : retests.error)}
      onRetry={retests.refetch}
    >
      <Section title="Waiting">
        <ul className="figures">
          {figures.map(([text, count, to]) => (
            <li key={text}>
              <Link href={to}>
                <b>{count === undefined ? '…' : figure(count)}</b>
                <span>{text}</span>
              </Link>
            </li>
          ))}
        </ul>
      </Section>
      <Section title="Test days ahead" note="free of all slots" more={<Link href="/test-days">All test days</Link>}>
        <Part query={days}>
          {coming?.length === 0 && (
            <Empty>
              No test day is planned. <Link href="/test-days">Plan one</Link>, make its slots, and book the backlog.
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
                    <Link href={`/test-days/${id}`}>
                      <b>{sayDay(on, today)}</b>
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
                    freeSlots === 0 ? 'none' : <Link href={`/retests?book=${id}`}>{figure(freeSlots)} to fill</Link>,
                },
              ]}
            />
          )}
        </Part>
      </Section>
    </Page>
  )
}
