import { Link } from 'wouter'
import { addDays, daysBetween } from '#calendar/plain-date.ts'
import type { RetestPlanRows } from '#contract/plans/plans.ts'
import { formatPlannedNote } from '../../domain/plans/format-plan.ts'
import { addressTo, paths } from '../../paths.ts'
import { Section } from '../../ui/section.tsx'
import { Table } from '../../ui/table.tsx'
import { formatDay, formatDayInFull } from '../../words/format-day.ts'
import { counted } from '../../words/format-number.ts'
import { formatTime } from '../../words/format-time.ts'

type Row = RetestPlanRows['rows'][number]

interface PlannedWeeksProps {
  rows: readonly Row[]
  /** Pairs that are not ticked. */
  left: readonly string[]
  onTick: (pairs: readonly string[], on: boolean) => void
  title: (code: string) => string
  zone: string | null
  today: string
}

/** A Monday long ago, from which weeks are counted. */
const A_MONDAY = '1900-01-01'

const mondayOf = (day: string): string => addDays(day, -(daysBetween(A_MONDAY, day) % 7))

/** What goes where: by week, and in it by test day. */
export function PlannedWeeks({ rows, ...more }: PlannedWeeksProps) {
  const weeks = [...new Set(rows.map(({ on }) => mondayOf(on)))]
  return weeks.map((monday) => {
    const inWeek = rows.filter(({ on }) => mondayOf(on) === monday)
    const days = [...new Set(inWeek.map(({ testDayId }) => testDayId))]
    return (
      <Section
        key={monday}
        title={`Week of ${formatDay(monday, more.today)}`}
        note={`${counted(inWeek.length, 'test')} on ${counted(days.length, 'test day')}`}
      >
        {days.map((day) => (
          <PlannedDay key={day} rows={inWeek.filter(({ testDayId }) => testDayId === day)} {...more} />
        ))}
      </Section>
    )
  })
}

function PlannedDay({ rows, left, onTick, title, zone, today }: PlannedWeeksProps) {
  const { on, place, testDayId } = rows[0]!
  const open = rows.filter(({ state }) => state === 'proposed').map(({ pair }) => pair)
  const isAll = open.every((pair) => !left.includes(pair))
  const name = `${formatDayInFull(on, today)}${place ? `, ${place}` : ''}`
  return (
    <div className="plan-day">
      <h3>
        {open.length > 0 && (
          <input
            className="no-print"
            type="checkbox"
            aria-label={`All of ${name}`}
            checked={isAll}
            onChange={(event) => onTick(open, event.target.checked)}
          />
        )}{' '}
        <Link href={addressTo(paths.testDay, { id: testDayId })}>{name}</Link>
      </h3>
      <Table<Row>
        caption={`Planned on ${name}`}
        rows={rows}
        rowKey={({ pair }) => pair}
        columns={[
          {
            head: 'Candidate',
            cell: (row) => (
              <label className="tick">
                <input
                  className="no-print"
                  type="checkbox"
                  disabled={row.state !== 'proposed'}
                  checked={row.state !== 'proposed' || !left.includes(row.pair)}
                  onChange={(event) => onTick([row.pair], event.target.checked)}
                />
                <span>
                  <b>
                    <bdi>{row.candidateName}</bdi>
                  </b>{' '}
                  <span className="muted plan-unit">{row.unitName}</span>
                </span>
              </label>
            ),
          },
          { head: 'Slot', tight: true, cell: ({ startsAt }) => formatTime(startsAt, zone) },
          { head: 'Standard', bare: true, cell: ({ standard }) => title(standard) },
          { head: 'Grader', tight: 'wide', cell: ({ graderName }) => <bdi>{graderName ?? 'not said yet'}</bdi> },
          { head: 'Sponsor', tight: 'wide', cell: ({ sponsorName }) => <bdi>{sponsorName ?? 'none'}</bdi> },
          {
            head: 'Due',
            tight: true,
            cell: ({ due }) => (due === null ? 'none set' : formatDay(due, today)),
          },
          { head: 'Note', cell: (row) => formatPlannedNote(row, today) },
        ]}
      />
    </div>
  )
}
