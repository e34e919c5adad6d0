import { formatDay, MONTHS } from '../../words/format-day.ts'

const NAMED = /\b(\d{1,2})\.?\s+([a-z]{3,9})\.?(?:\s+(\d{4}))?\b/i
const NAMED_MONTH_FIRST = /\b([a-z]{3,9})\.?\s+(\d{1,2})(?:st|nd|rd|th)?(?:,?\s+(\d{4}))?\b/i
const ISO = /\b(\d{4})-(\d{2})-(\d{2})\b/

interface Taken {
  /** The day as YYYY-MM-DD and as a list says it; null where the text has none. */
  readonly day: { readonly iso: string; readonly said: string } | null
  /** The text without it. */
  readonly rest: string
}

/** The month that a word begins, of three letters and more; 0: none. */
const monthOf = (word: string): number =>
  MONTHS.findIndex((month) => month.toLowerCase().startsWith(word.toLowerCase())) + 1

const isDay = (iso: string): boolean => {
  const time = Date.parse(`${iso}T00:00:00Z`)
  return !Number.isNaN(time) && new Date(time).toISOString().startsWith(iso)
}

/** Takes a day out of a text: "31 Dec", "Dec 31", "31 December 2026", "2026-12-31"; without a year the next such day from today on. */
export function takeDay(text: string, today: string): Taken {
  const iso = ISO.exec(text)
  if (iso) return taken(text, iso, [Number(iso[1]), Number(iso[2]), Number(iso[3])], today)
  const named = NAMED.exec(text)
  if (named && monthOf(named[2]!))
    return taken(text, named, [year(named[3]), monthOf(named[2]!), Number(named[1])], today)
  const first = NAMED_MONTH_FIRST.exec(text)
  if (first && monthOf(first[1]!))
    return taken(text, first, [year(first[3]), monthOf(first[1]!), Number(first[2])], today)
  return { day: null, rest: text }
}

const year = (text: string | undefined): number | null => (text === undefined ? null : Number(text))

function taken(
  text: string,
  { 0: found }: RegExpExecArray,
  parts: [number | null, number, number],
  today: string,
): Taken {
  const [given, month, date] = parts
  const inYear = (one: number) => `${one}-${String(month).padStart(2, '0')}-${String(date).padStart(2, '0')}`
  const thisYear = Number(today.slice(0, 4))
  const wanted = inYear(given ?? thisYear)
  const iso = given === null && wanted < today ? inYear(thisYear + 1) : wanted
  if (!isDay(iso)) return { day: null, rest: text }
  return { day: { iso, said: formatDay(iso, today) }, rest: text.replace(found, ' ') }
}
