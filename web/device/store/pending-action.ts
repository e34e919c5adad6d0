import type { BookingMarkBody, WalkInBody } from '#contract/test-days/bookings.ts'

/**
 * Something done about a booking that the server is not known to have: how somebody booked stands, or that somebody came
 * without a booking. One a booking: a later mark takes the place of one that was not sent.
 */
export type PendingAction = {
  readonly accountId: string
  /** The booking; of a walk-in the id it will have, which is that of the sheet as well. */
  readonly id: string
  /** When it was done, by the device's clock; pending actions go out in this order. */
  readonly at: string
  readonly state: 'waiting' | 'refused'
  /** Why it was refused. */
  readonly message: string
} & (
  | { readonly kind: 'mark'; readonly candidate: string; readonly mark: BookingMarkBody }
  | { readonly kind: 'walk-in'; readonly testDayId: string; readonly body: WalkInBody }
)
