/** What a notification outside the pages is about; it says no more than that. */
export type PushKind = 'booking' | 'call-off' | 'result' | 'award'

/** The notices that are told outside the pages, too: what somebody has to know before they open one. */
export const PUSH_KIND: Readonly<Partial<Record<string, PushKind>>> = {
  booked: 'booking',
  moved: 'booking',
  cancelled: 'booking',
  'not needed': 'booking',
  'needed again': 'booking',
  'day called off': 'call-off',
  'sheet entered': 'result',
  'sheet held': 'result',
  'sheet counted': 'result',
  'sheet rejected': 'result',
  'sheet amended': 'result',
  'appeal upheld': 'result',
  'appeal denied': 'result',
  'award approved': 'award',
  'award refused': 'award',
  'decision taken back': 'award',
  'award extended': 'award',
  'extension taken back': 'award',
}

/** The words, which name nobody and no outcome: they pass through a push service and stand on a locked screen. */
export const PUSH_WORDS: Readonly<Record<PushKind, string>> = {
  booking: 'A booking that concerns you changed. Open Reviewstand to see it.',
  'call-off': 'A test day that concerns you was called off. Open Reviewstand to see it.',
  award: 'There is word of a certification that concerns you. Open Reviewstand to see it.',
  result: 'There is word of a grade sheet that concerns you. Open Reviewstand to see it.',
}

const FIRST_WAIT_MS = 30_000
const LONGEST_WAIT_MS = 60 * 60 * 1000

/** How long to wait after so many tries that came to nothing: half a minute, doubled each time, an hour at most. */
export const waitAfter = (tries: number): number =>
  Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** Math.max(0, tries - 1))
