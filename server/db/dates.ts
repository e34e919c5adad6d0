/** A calendar date as Prisma stores it in a date column. */
export const toDate = (day: string): Date => new Date(`${day}T00:00:00Z`)

/** The same where there may be none. */
export const toDateOrNull = (day: string | null): Date | null => (day === null ? null : toDate(day))
