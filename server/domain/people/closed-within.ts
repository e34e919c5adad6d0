import type { PlainDate } from '../calendar/plain-date.ts'
import type { SoldierPeriod } from './soldier-periods.ts'

interface Closed {
  readonly id: string
  /** First day on which nobody is in it. */
  readonly from: PlainDate
}

/** The unit that somebody would be in on a day on which it is closed; undefined: none. In: their periods, and closed units. */
export const closedWithin = <Unit extends Closed>(
  periods: readonly Pick<SoldierPeriod, 'unitId' | 'through'>[],
  closed: readonly Unit[],
): Unit | undefined =>
  closed.find(({ id, from }) =>
    periods.some(({ unitId, through }) => unitId === id && (through === null || through >= from)),
  )
