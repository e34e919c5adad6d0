const instant = (month: string): Date => new Date(`${month}-01T00:00:00Z`)

const long = new Intl.DateTimeFormat('en', { month: 'long', year: 'numeric', timeZone: 'UTC' })
const short = new Intl.DateTimeFormat('en', { month: 'short', year: '2-digit', timeZone: 'UTC' })

/** A month from `YYYY-MM`: "August 2026". */
export const formatMonth = (month: string): string => long.format(instant(month))

/** For an axis: "Aug 26". */
export const formatMonthShort = (month: string): string => short.format(instant(month))
