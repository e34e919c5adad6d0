import type { FileAnswer } from '../common.ts'
import type { Endpoint } from '../endpoint.ts'
import type { CalendarLink, CalendarLinkState } from './calendar.ts'

export const getCalendarLink = 'GET /api/account/calendar' as Endpoint<{ answer: typeof CalendarLinkState }>

export const makeCalendarLink = 'POST /api/account/calendar' as Endpoint<{ answer: typeof CalendarLink }>

export const revokeCalendarLink = 'DELETE /api/account/calendar' as Endpoint

export const getTestDayCalendar = 'GET /api/test-days.ics' as Endpoint<{ answer: typeof FileAnswer }>
