import { z } from 'zod'
import { Instant } from '../common.ts'

/** Whether there is a calendar link, and since when. */
export const CalendarLinkState = z.object({ createdAt: Instant.nullable() }).meta({ id: 'CalendarLinkState' })

/** A new link, told this once: `/calendar/`, the token and `.ics`. */
export const CalendarLink = z.object({ token: z.string(), createdAt: Instant }).meta({ id: 'CalendarLink' })

export type CalendarLinkState = z.infer<typeof CalendarLinkState>
export type CalendarLink = z.infer<typeof CalendarLink>
