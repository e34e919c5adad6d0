import type { Standard } from '#contract/standards/standards.ts'
import type { LineBooking } from '#contract/test-days/running-tests.ts'
import { standardTitle } from '../../domain/standards/titles.ts'
import { formatBookingState, formatSponsor } from '../../domain/test-days/format-check-in.ts'
import { fact, momentFact } from '../../parts/readiness/facts.ts'
import { Button } from '../../ui/button.tsx'
import { Table } from '../../ui/table.tsx'
import { formatTime } from '../../words/format-time.ts'

interface LineListProps {
  bookings: readonly LineBooking[]
  standards: readonly Standard[]
  zone: string | null
  onCheckIn: ((booking: LineBooking) => void) | undefined
  onSecond: ((booking: LineBooking) => void) | undefined
}

/** Who is booked, by time: with whom, whether they are here, and what was found wanting. It prints as the day's list. */
export function LineList({ bookings, standards, zone, onCheckIn, onSecond }: LineListProps) {
  return (
    <Table<LineBooking>
      caption="The day’s list"
      rows={bookings}
      rowKey={({ id }) => id}
      columns={[
        {
          head: 'Time',
          facts: [momentFact('Starts', ({ startsAt }) => startsAt)],
          tight: true,
          cell: ({ startsAt }) => <b>{startsAt === null ? 'any time' : formatTime(startsAt, zone)}</b>,
        },
        {
          head: 'Candidate',
          facts: [
            fact('Roster number', ({ rosterNumber }) => rosterNumber),
            fact('Candidate', ({ candidate }) => candidate),
          ],
          bare: true,
          cell: ({ candidate, rosterNumber }) => (
            <>
              <b>
                <bdi>{candidate}</bdi>
              </b>{' '}
              <span className="muted">{rosterNumber}</span>
            </>
          ),
        },
        {
          head: 'Standard',
          facts: [
            fact('Standard', ({ standard }) => standardTitle(standards, standard)),
            fact('Arms', ({ standard, arms }) => armsOf(standards, standard, arms)),
          ],
          bare: true,
          cell: ({ standard, arms }) => {
            const carried = armsOf(standards, standard, arms)
            return `${standardTitle(standards, standard)}${carried ? ` (${carried})` : ''}`
          },
        },
        {
          head: 'Grader',
          facts: [fact('Grader', ({ grader }) => grader), fact('Second grader', ({ secondGrader }) => secondGrader)],
          cell: ({ grader, secondGrader }) => (
            <bdi>
              {grader ?? 'not said yet'}
              {secondGrader && `; second ${secondGrader}`}
            </bdi>
          ),
        },
        { head: 'Sponsor', bare: true, cell: (one) => formatSponsor(one.sponsor, one.sponsorCertified) },
        { head: 'State', bare: true, cell: (one) => formatBookingState(one) },
        ...(onCheckIn || onSecond
          ? [
              {
                head: 'Do',
                facts: [],
                bare: true,
                className: 'no-print',
                cell: (one: LineBooking) => (
                  <span className="row-buttons">
                    {onCheckIn && one.state !== 'tested' && (
                      <Button onClick={() => onCheckIn(one)}>
                        {one.state === 'booked' ? 'Check in' : 'Change'}
                        <span className="out-of-sight"> {one.candidate}</span>
                      </Button>
                    )}
                    {onSecond && one.state !== 'tested' && (
                      <Button kind="quiet" onClick={() => onSecond(one)}>
                        Second grader<span className="out-of-sight"> of {one.candidate}</span>
                      </Button>
                    )}
                  </span>
                ),
              },
            ]
          : []),
      ]}
    />
  )
}

const armsOf = (standards: readonly Standard[], code: string, carried: readonly string[]): string => {
  const arms = standards.find((standard) => standard.code === code)?.arms ?? []
  return arms.filter((arm) => carried.includes(arm)).join(' or ')
}
