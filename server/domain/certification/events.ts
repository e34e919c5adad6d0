import type { PlainDate } from '../calendar/plain-date.ts'
import { compareSheets } from './sheet-order.ts'
import type { Attempt, AwardHistory, CarriedAward, Certification } from './types.ts'
import { type Word, withExtensions, wordAbout } from './words.ts'

export type CertificationEvent =
  | { readonly kind: 'attempt'; readonly day: PlainDate; readonly attempt: Attempt; readonly word: Word }
  /** Its last day as extended. */
  | { readonly kind: 'award'; readonly day: PlainDate; readonly award: CarriedAward }
  | { readonly kind: 'withdrawal'; readonly day: PlainDate }

/**
 * What happened to one soldier in one certification, in order: its attempts (of the required standards, with an allowed
 * arm) as sheets are ordered; at the end of each day its carried-over awards in order of entry, then its withdrawals.
 */
export function certificationEvents(
  certification: Pick<Certification, 'standards' | 'arms'>,
  history: AwardHistory,
): CertificationEvent[] {
  const attempts = history.attempts.filter((attempt) => isConsidered(certification, attempt)).sort(compareSheets)
  const dayEnds: CertificationEvent[] = [
    ...history.awards.map(
      (award) => ({ kind: 'award', day: award.awardedOn, award: withExtensions(history, award) }) as const,
    ),
    ...history.withdrawals.map((day) => ({ kind: 'withdrawal', day }) as const),
  ]
  dayEnds.sort((a, b) => compareText(a.day, b.day) || rank(a) - rank(b))
  const events: CertificationEvent[] = []
  let next = 0
  for (const attempt of attempts) {
    while (next < dayEnds.length && dayEnds[next]!.day < attempt.day) events.push(dayEnds[next++]!)
    events.push({ kind: 'attempt', day: attempt.day, attempt, word: wordAbout(history, attempt.id) })
  }
  return [...events, ...dayEnds.slice(next)]
}

/** Whether a certification looks at a sheet of this standard taken with this arm. */
export function isConsidered(
  certification: Pick<Certification, 'standards' | 'arms'>,
  sheet: { readonly standard: string; readonly arm: string | null },
): boolean {
  if (!certification.standards.includes(sheet.standard)) return false
  return certification.arms.length === 0 || (sheet.arm !== null && certification.arms.includes(sheet.arm))
}

const rank = (event: CertificationEvent): number =>
  event.kind === 'award' ? event.award.entry : Number.POSITIVE_INFINITY

const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0)
