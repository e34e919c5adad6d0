import type { DayList, Identified, IdentifyBody } from '#contract/test-days/day-list.ts'
import { get, send } from '../client.ts'

/** What this device keeps to grade without a network; asked for directly, since it goes onto the device and not into a cache. */
export const fetchDayList = () => get<typeof DayList>('/day-list')

/** Who was tested without a booking, by roster number and family name together. */
export const identify = (body: IdentifyBody) => send<typeof Identified>('POST', '/soldiers/identify', body)
