import type { Unit } from '#contract/soldiers/soldiers.ts'
import type { Certification, Retest } from '#contract/standards/certifications.ts'
import type { Standard } from '#contract/standards/standards.ts'
import type { Booking } from '#contract/test-days/test-days.ts'
import type { ForecastOf } from '../../../domain/ability/format-forecast.ts'
import { fullUnitName } from '../../../domain/soldiers/unit-tree.ts'
import { certificationTitle, standardTitle } from '../../../domain/standards/titles.ts'
import { Chance } from '../../../parts/ability/chance.tsx'
import { dayFact, fact, soldierFacts } from '../../../parts/readiness/facts.ts'
import { type Column, Table } from '../../../ui/table.tsx'
import { formatDay } from '../../../words/format-day.ts'
import { keyOf } from './filter-retests.ts'
import { formatRetestState } from './format-retest-state.ts'
import { BookedDay, Doing, DueDay, Soldier, Tick } from './retest-cells.tsx'
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
                <Tick
                  retest={retest}
                  title={standardTitle(standards, retest.standard)}
                  chosen={chosen}
                  onChoose={onChoose}
                />
              )}
              <Soldier retest={retest} unitName={fullUnitName(units, retest.unitId)} />
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
          cell: (retest) => <DueDay retest={retest} asOf={asOf} />,
        },
        {
          head: 'Booked',
          facts: [dayFact('Booked', (retest) => bookedOn(retest)?.on)],
          tight: true,
          cell: (retest) => <BookedDay retest={retest} booking={bookedOn(retest)} asOf={asOf} />,
        },
        ...(rows.some(({ soldierId, standard }) => forecastOf(soldierId, standard)) ? [chanceColumn(forecastOf)] : []),
        { head: 'State', bare: true, cell: (retest) => <b>{formatRetestState(retest, asOf)}</b> },
        ...(canBook ? [doingColumn(onMove)] : []),
      ]}
    />
  )
}

const chanceColumn = (forecastOf: ForecastOf): Column<Retest> => ({
  head: 'Such candidates pass',
  facts: [],
  cell: ({ soldierId, standard }) => <Chance forecast={forecastOf(soldierId, standard)} />,
})

const doingColumn = (onMove: (retest: Retest) => void): Column<Retest> => ({
  head: 'Do',
  facts: [],
  bare: true,
  className: 'no-print',
  cell: (retest) => <Doing retest={retest} onMove={onMove} />,
})
