import { queryOptions } from '@tanstack/react-query'
import * as endpoints from '#contract/calendar/endpoints.ts'
import { call } from '../client.ts'

/** Whether one has a calendar link, and since when. */
export const calendarLinkQuery = queryOptions({
  queryKey: ['account', 'calendar'],
  queryFn: () => call(endpoints.getCalendarLink),
})

export const makeCalendarLink = () => call(endpoints.makeCalendarLink)

export const revokeCalendarLink = () => call(endpoints.revokeCalendarLink)
