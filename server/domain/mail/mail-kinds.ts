import type { Role } from '../access/actor.ts'
import type { NoticeKind } from '../notices/notice-sentence.ts'

/** What an account can have mail about. */
export type MailKind = 'bookings' | 'held' | 'named' | 'people' | 'awards' | 'lapses' | 'week'

/** When it comes: soon after, once in the morning, on Monday morning, or not at all. */
export type MailTiming = 'at once' | 'daily' | 'weekly' | 'never'

const NEWS: readonly MailTiming[] = ['at once', 'daily', 'never']

/** In the order in which they are offered; the second list is what may be chosen, `usual` what holds until somebody chooses. */
const KINDS: Record<MailKind, { timings: readonly MailTiming[]; usual: MailTiming; roles: readonly Role[] }> = {
  bookings: {
    timings: NEWS,
    usual: 'at once',
    roles: ['office', 'commander', 'leader', 'sponsor', 'grader', 'soldier'],
  },
  held: { timings: NEWS, usual: 'daily', roles: ['office', 'grader'] },
  named: { timings: NEWS, usual: 'daily', roles: ['office', 'sponsor', 'grader', 'soldier'] },
  people: { timings: NEWS, usual: 'daily', roles: ['office', 'commander', 'leader'] },
  awards: { timings: NEWS, usual: 'daily', roles: ['commander', 'leader', 'sponsor', 'grader', 'soldier'] },
  lapses: {
    timings: ['daily', 'never'],
    usual: 'daily',
    roles: ['office', 'commander', 'leader', 'sponsor', 'grader', 'soldier'],
  },
  week: { timings: ['weekly', 'never'], usual: 'weekly', roles: ['office', 'leader', 'sponsor'] },
}

const OF_NOTICE: Record<NoticeKind, MailKind> = {
  booked: 'bookings',
  moved: 'bookings',
  cancelled: 'bookings',
  'day called off': 'bookings',
  'not needed': 'bookings',
  'needed again': 'bookings',
  'due day moved': 'bookings',
  'sheet held': 'held',
  'sheet counted': 'held',
  'sheet rejected': 'held',
  'graders differ': 'held',
  'sheet entered': 'named',
  'sheets taken in': 'named',
  'amendment proposed': 'named',
  'amendment refused': 'named',
  'sheet amended': 'named',
  appealed: 'named',
  'appeal upheld': 'named',
  'appeal denied': 'named',
  'sheet arrived late': 'named',
  'sponsor ended': 'people',
  'soldier asked for': 'people',
  'ask answered': 'people',
  'award waiting': 'awards',
  'award approved': 'awards',
  'award refused': 'awards',
  'decision taken back': 'awards',
  'award extended': 'awards',
  'extension taken back': 'awards',
}

/** The kind of mail that a notice comes with. */
export const mailKindOf = (notice: NoticeKind): MailKind => OF_NOTICE[notice]

/** The kinds that somebody with these roles can have mail about, with the timings to choose from. */
export const mailKindsFor = (roles: readonly Role[]): { kind: MailKind; timings: readonly MailTiming[] }[] =>
  (Object.keys(KINDS) as MailKind[])
    .filter((kind) => KINDS[kind].roles.some((role) => roles.includes(role)))
    .map((kind) => ({ kind, timings: KINDS[kind].timings }))

/** When mail of a kind comes: as chosen, else as is usual; never where the roles have no use for it (any more). */
export function timingOf(
  kind: MailKind,
  roles: readonly Role[],
  choices: Readonly<Partial<Record<string, string>>>,
): MailTiming {
  const { timings, usual, roles: offeredTo } = KINDS[kind]
  if (!offeredTo.some((role) => roles.includes(role))) return 'never'
  return timings.find((timing) => timing === choices[kind]) ?? usual
}
