import type { PlainDate } from '../calendar/plain-date.ts'
import type { DutyTime } from './types.ts'

const MINUTE = 60_000

export interface CeremonyTimes {
  readonly day: PlainDate
  /** Instants in milliseconds since 1970. */
  readonly reportsAt: number
  readonly endsAt: number
  readonly minutesBefore: number
  readonly minutesAfter: number
  readonly rehearsals: readonly { readonly startsAt: number; readonly endsAt: number; readonly day: PlainDate }[]
}

/**
 * When those named to a ceremony are on duty for it: from so many minutes before they report until so many after the end,
 * and likewise around each rehearsal. The ceremony comes first.
 */
export function dutyTimes(ceremony: CeremonyTimes): DutyTime[] {
  const before = ceremony.minutesBefore * MINUTE
  const after = ceremony.minutesAfter * MINUTE
  return [
    { at: 'ceremony', day: ceremony.day, from: ceremony.reportsAt - before, to: ceremony.endsAt + after },
    ...ceremony.rehearsals.map(
      ({ startsAt, endsAt, day }): DutyTime => ({ at: 'rehearsal', day, from: startsAt - before, to: endsAt + after }),
    ),
  ]
}
