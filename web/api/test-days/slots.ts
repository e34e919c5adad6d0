import { queryOptions } from '@tanstack/react-query'
import type { SlotPage } from '#contract/test-days/test-days.ts'
import { allPages } from '../all-pages.ts'

/** Slots nobody is booked in, from a day on, in order of time. */
export const freeSlotsQuery = (filters: { from: string; unitId?: string }) =>
  queryOptions({
    queryKey: ['test-days', 'free slots', filters],
    queryFn: () => allPages<typeof SlotPage>('/slots', { ...filters, free: 'true' }),
  })
