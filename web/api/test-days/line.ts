import { queryOptions } from '@tanstack/react-query'
import * as endpoints from '#contract/test-days/endpoints.ts'
import type { RunningTestBody } from '#contract/test-days/running-tests.ts'
import { call } from '../client.ts'

const LINE_KEY = 'line'

/** Who is booked on a test day, what runs there now, and what was closed. */
export const lineQuery = (testDayId: string) =>
  queryOptions({
    queryKey: [LINE_KEY, testDayId],
    queryFn: () => call(endpoints.getTestDayLine, { params: { id: testDayId } }),
  })

/** Says how a test stands that runs on this device. */
export const reportRunning = (id: string, body: RunningTestBody) =>
  call(endpoints.reportRunningTest, { params: { id }, body })
