import type { PlainDate } from './plain-date.ts'

/** One entry of a calendar. Without instants it lasts the whole day. */
export interface CalendarEvent {
  /** The same for the same thing, however often it is written. */
  readonly id: string
  readonly title: string
  readonly place: string
  readonly day: PlainDate
  /** RFC 3339, UTC. */
  readonly startsAt: string | null
  /** Null: how long it lasts is not known. */
  readonly endsAt: string | null
  readonly note: string
  readonly cancelled: boolean
  /** Where in Reviewstand it stands. */
  readonly path: string
}
