import { Link } from 'wouter'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import type { Certification, Retest } from '#contract/standards/certifications.ts'
import type { Standard } from '#contract/standards/standards.ts'
import type { Booking } from '#contract/test-days/test-days.ts'
import type { ForecastOf } from '../../../domain/ability/format-forecast.ts'
import { fullUnitName } from '../../../domain/soldiers/unit-tree.ts'
import { certificationTitle, standardTitle } from '../../../domain/standards/titles.ts'
import { Chance } from '../../../parts/ability/chance.tsx'
import { dayFact, fact, soldierFacts } from '../../../parts/readiness/facts.ts'
import { addressTo, paths } from '../../../paths.ts'
import { Button } from '../../../ui/button.tsx'
import { Table } from '../../../ui/table.tsx'
import { formatDay } from '../../../words/format-day.ts'
import { keyOf } from './filter-retests.ts'
import { formatRetestState } from './format-retest-state.ts'
import './retests.css'

interface RetestTableProps {
  rows: readonly Retest[]
  asOf: string
  units: readonly Unit[]
  standards: readonly Standard[]
  certifications: readonly Certification[]
  /** The office chooses retests here to book them, and moves due days. */
  canBook: boolean
  chosen: readonly string[]
  onChoose: (key: string, on: boolean) => void
  onMove: (retest: Retest) => void
  bookedOn: (retest: Retest) => Booking | undefined
  forecastOf: ForecastOf
}

/** Open retests, each with where it stands and, for the office, what can be done about it. */
export function RetestTable(props: RetestTableProps) {
  const { rows, asOf, units, standards, certifications, canBook, chosen, onChoose, onMove, bookedOn, forecastOf } =
    props
  const manyCertifications = new Set(rows.map(({ certification }) => certification)).size > 1
  return (
    <Table<Retest>
      caption="Open retests"
      rows={rows}
      rowKey={keyOf}
      columns={[
        {
          head: 'Soldier',
          facts: [...soldierFacts<Retest>(true), fact('Unit', ({ unitId }) => fullUnitName(units, unitId))],
          tight: 'wide',
          cell: (retest) => (
            <>
              {canBook && (
                <label className="tick retest-tick">
                  <input
                    type="checkbox"
                    checked={chosen.includes(keyOf(retest))}
                    onChange={(event) => onChoose(keyOf(retest), event.target.checked)}
                  />
                  <span className="out-of-sight">
                    Choose {retest.name}, {standardTitle(standards, retest.standard)}
                  </span>
                </label>
              )}
              <Link href={addressTo(paths.candidate, { id: retest.soldierId, standard: retest.standard })}>
                <b>
                  <bdi>
                    {retest.grade} {retest.name}
                  </bdi>
                </b>
              </Link>{' '}
              <span className="muted one-line">{retest.rosterNumber}</span>
              <span className="muted retest-unit">{fullUnitName(units, retest.unitId)}</span>
            </>
          ),
        },
        {
          head: 'Standard',
          facts: [
            fact('Standard', ({ standard }) => standardTitle(standards, standard)),
            fact('Certification', ({ certification }) => certificationTitle(certifications, certification)),
          ],
          bare: true,
          cell: ({ standard, certification }) => (
            <>
              {standardTitle(standards, standard)}
              {manyCertifications && (
                <span className="muted"> {certificationTitle(certifications, certification)}</span>
              )}
            </>
          ),
        },
        {
          head: 'NO-GO on',
          facts: [dayFact('NO-GO on', ({ on }) => on), fact('Next attempt', ({ attempt }) => attempt)],
          cell: ({ on, attempt }) => (
            <>
              <span className="one-line">{formatDay(on, asOf)}</span>{' '}
              <span className="muted small retest-unit one-line">next: attempt {attempt}</span>
            </>
          ),
        },
        {
          head: 'Earliest',
          facts: [dayFact('Earliest', ({ earliest }) => earliest)],
          tight: true,
          cell: ({ earliest }) => formatDay(earliest, asOf),
        },
        {
          head: 'Due',
          facts: [
            dayFact('Due', ({ due }) => due),
            dayFact('Due by the rules', ({ due, dueMoved }) => dueMoved?.ruleDue ?? due),
            fact('Why it was moved', ({ dueMoved }) => dueMoved?.reason),
          ],
          cell: ({ due, dueMoved }) =>
            dueMoved ? (
              <>
                <span className="one-line">{formatDay(due, asOf)}</span>
                <span className="muted small">
                  {' '}
                  moved from {formatDay(dueMoved.ruleDue, asOf)}: <bdi>{dueMoved.reason}</bdi>
                </span>
              </>
            ) : (
              <span className="one-line">{formatDay(due, asOf)}</span>
            ),
        },
        {
          head: 'Booked',
          facts: [dayFact('Booked', (retest) => bookedOn(retest)?.on)],
          tight: true,
          cell: (retest) => {
            const booking = bookedOn(retest)
            if (!booking) return <span className="muted">not booked</span>
            return (
              <>
                <Link href={addressTo(paths.testDay, { id: booking.testDayId })}>{formatDay(booking.on, asOf)}</Link>
                {booking.on > retest.due && <b className="retest-unit">after the due day</b>}
              </>
            )
          },
        },
        ...(rows.some(({ soldierId, standard }) => forecastOf(soldierId, standard))
          ? [
              {
                head: 'Such candidates pass',
                facts: [],
                cell: ({ soldierId, standard }: Retest) => <Chance forecast={forecastOf(soldierId, standard)} />,
              },
            ]
          : []),
        { head: 'State', bare: true, cell: (retest) => <b>{formatRetestState(retest, asOf)}</b> },
        ...(canBook
          ? [
              {
                head: 'Do',
                facts: [],
                bare: true,
                className: 'no-print',
                cell: (retest: Retest) => (
                  <span className="retest-doing">
                    <Button kind="quiet" onClick={() => onMove(retest)}>
                      Move due day<span className="out-of-sight"> of {retest.name}</span>
                    </Button>
                    {retest.needsReview && (
                      <Link href={addressTo(paths.review, { soldierId: retest.soldierId, standard: retest.standard })}>
                        Counselling sheet<span className="out-of-sight"> for {retest.name}</span>
                      </Link>
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
