import { addDays } from '#calendar/plain-date.ts'
import type { Retest } from '#contract/standards/certifications.ts'

/** So far ahead a retest is due soon. */
export const DUE_SOON_DAYS = 14

/** Is a retest due within that many days of a day, and not past due? */
export const isDueSoon = ({ pastDue, due }: Pick<Retest, 'pastDue' | 'due'>, asOf: string): boolean =>
  !pastDue && due <= addDays(asOf, DUE_SOON_DAYS)
