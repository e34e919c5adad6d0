import { formatDay } from '../../../words/format-day.ts'

/** "closed from 1 Jun", or "closes on 1 Jun" before that day. */
export const formatClosed = (from: string, today: string): string =>
  from <= today ? `closed from ${formatDay(from, today)} on` : `closes on ${formatDay(from, today)}`
