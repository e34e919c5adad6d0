import { queryOptions } from '@tanstack/react-query'
import type { RunningTestBody, TestDayLine } from '#contract/test-days/running-tests.ts'
import { get, send } from '../client.ts'

const LINE_KEY = 'line'

/** Who is booked on a test day, what runs there now, and what was closed. */
export const lineQuery = (testDayId: string) =>
  queryOptions({
    queryKey: [LINE_KEY, testDayId],
    queryFn: () => get<typeof TestDayLine>(`/test-days/${testDayId}/line`),
  })

/** Says how a test stands that runs on this device. */
export const reportRunning = (id: string, body: RunningTestBody) => send('PUT', `/running-tests/${id}`, body)
