import { counted } from '../../../words/format-number.ts'

const MINUTE_MS = 60_000
const HOUR_MS = 3_600_000
const DAY_MS = 86_400_000

/** How wrong a clock is: "26 hours ahead", "3 days behind". In: milliseconds, below zero behind. */
export const formatClockAhead = (ahead: number): string => {
  const off = Math.abs(ahead)
  const [size, word] =
    off >= 2 * DAY_MS ? [DAY_MS, 'day'] : off >= 2 * HOUR_MS ? [HOUR_MS, 'hour'] : [MINUTE_MS, 'minute']
  return `${counted(Math.round(off / Number(size)), String(word))} ${ahead > 0 ? 'ahead' : 'behind'}`
}

/** The notes of a sheet whose times are the server's because the phone's clock was wrong, with the words that say so, once. */
export const notesWithClock = (notes: string, ahead: number): string => {
  if (ahead === 0 || notes.includes('by the server’s clock')) return notes
  const said = `The phone’s clock was ${formatClockAhead(ahead)}; times are by the server’s clock.`
  return [notes.trim(), said].filter(Boolean).join('\n')
}
