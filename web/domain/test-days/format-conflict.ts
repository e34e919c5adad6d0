import type { BookingConflict } from '#contract/test-days/bookings.ts'
import { formatDay } from '../../words/format-day.ts'

const WEIGHT_WORDS: Record<BookingConflict['weight'], string> = {
  blocks: 'Cannot be booked:',
  holds: 'The sheet would be held:',
  warns: 'Note:',
}

/** What is in the way of a booking and how much it weighs, with dates as people say them. */
export const formatConflict = ({ weight, detail }: BookingConflict, today: string): string =>
  `${WEIGHT_WORDS[weight]} ${detail.replace(/\b\d{4}-\d{2}-\d{2}\b/g, (day) => formatDay(day, today))}`
