import { queryOptions } from '@tanstack/react-query'
import type { CalendarLink, CalendarLinkState } from '#contract/calendar/calendar.ts'
import { get, remove, send } from '../client.ts'

/** Whether one has a calendar link, and since when. */
export const calendarLinkQuery = queryOptions({
  queryKey: ['account', 'calendar'],
  queryFn: () => get<typeof CalendarLinkState>('/account/calendar'),
})

export const makeCalendarLink = () => send<typeof CalendarLink>('POST', '/account/calendar', undefined)

export const revokeCalendarLink = () => remove('/account/calendar')
