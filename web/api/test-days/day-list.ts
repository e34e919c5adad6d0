import type { IdentifyBody } from '#contract/test-days/day-list.ts'
import * as endpoints from '#contract/test-days/endpoints.ts'
import { call } from '../client.ts'

/** What this device keeps to grade without a network; asked for directly, since it goes onto the device and not into a cache. */
export const fetchDayList = () => call(endpoints.getDayList)

/** Who was tested without a booking, by roster number and family name together. */
export const identify = (body: IdentifyBody) => call(endpoints.identifySoldier, { body })
