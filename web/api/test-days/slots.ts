import { queryOptions } from '@tanstack/react-query'
import * as endpoints from '#contract/test-days/endpoints.ts'
import { everyPage } from '../every-page.ts'

/** Slots nobody is booked in, from a day on, in order of time. */
export const freeSlotsQuery = (filters: { from: string; unitId?: string }) =>
  queryOptions({
    queryKey: ['test-days', 'free slots', filters],
    queryFn: () => everyPage(endpoints.listSlots, { query: { ...filters, free: 'true' } }),
  })
