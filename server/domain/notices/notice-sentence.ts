/** What there can be notice of. */
export type NoticeKind =
  | 'booked'
  | 'moved'
  | 'cancelled'
  | 'day called off'
  | 'sheet entered'
  | 'sheets taken in'
  | 'not needed'
  | 'needed again'
  | 'sheet held'
  | 'sheet counted'
  | 'sheet rejected'
  | 'amendment proposed'
  | 'amendment refused'
  | 'sheet amended'
  | 'appealed'
  | 'appeal upheld'
  | 'appeal denied'
  | 'due day moved'
  | 'sponsor ended'
  | 'graders differ'
  | 'sheet arrived late'
  | 'soldier asked for'
  | 'ask answered'
  | 'award waiting'
  | 'award approved'
  | 'award refused'
  | 'decision taken back'
  | 'award extended'
  | 'extension taken back'

/** What of a notice its sentence is made of. */
export interface ToldNotice {
  readonly kind: NoticeKind
  readonly isSelf: boolean
  readonly aboutName: string | null
  readonly place: string | null
  readonly startsAt: string | null
  readonly ask: {
    readonly title: string
    readonly post: string
    readonly unitName: string
    readonly answer: string | null
    readonly word: string
  } | null
}

/**
 * What a notice says in one sentence, on a page and in a mail. In: the notice, the title of its standard or certification, and its
 * day and clock time in words ("Sat 5 Dec at 09:30"; empty where it has none).
 */
export const noticeSentence = (notice: ToldNotice, title: string, moment: string): string => {
  const { kind, isSelf, aboutName, startsAt, place, ask } = notice
  const who = isSelf ? 'You' : (aboutName ?? 'Somebody')
  const are = isSelf ? 'are' : 'is'
  const when = moment && ` ${moment}`
  const at = place ? `, ${place}` : ''
  const of = isSelf ? 'Your' : `${who}’s`
  const ofMiddle = isSelf ? 'your' : of
  const sentences: Record<NoticeKind, string> = {
    booked: `${who} ${are} booked for ${title}:${when}${at}.`,
    moved: `${of} test in ${title} was moved to${when}${at}.`,
    cancelled: `${of} booking for ${title},${when}, was cancelled.`,
    'day called off': `The test day${when}${at} was called off; ${ofMiddle} test in ${title} is not then.`,
    'sheet entered': `${of} sheet in ${title},${when}, was entered.`,
    'sheets taken in': 'Sheets that name you were imported from a file.',
    'not needed': `${of} booking for ${title},${when}, ended: the test is not needed any more.`,
    'needed again': `${of} test in ${title} is needed again; the booking${when}${at} stands${startsAt ? '' : ', in no slot yet'}.`,
    'sheet held': `${of} sheet in ${title},${when}, is held: the training office decides.`,
    'sheet counted': `${of} held sheet in ${title},${when}, counts now.`,
    'sheet rejected': `${of} sheet in ${title},${when}, was rejected.`,
    'amendment proposed': `An amendment of ${ofMiddle} sheet in ${title},${when}, was proposed; a second person decides.`,
    'amendment refused': `The amendment of ${ofMiddle} sheet in ${title},${when}, was refused; the sheet stays as it was.`,
    'sheet amended': `${of} sheet in ${title},${when}, was amended.`,
    appealed: `${of} sheet in ${title},${when}, was appealed.`,
    'appeal upheld': `The appeal of ${ofMiddle} sheet in ${title},${when}, was upheld.`,
    'appeal denied': `The appeal of ${ofMiddle} sheet in ${title},${when}, was dismissed.`,
    'due day moved': `${of} retest in ${title} is due by${when} now.`,
    'graders differ': `Two graders of ${ofMiddle} test in ${title},${when}, came to different outcomes.`,
    'sheet arrived late': `${of} sheet in ${title},${when}, came in after a later one; what followed it was worked out again.`,
    'soldier asked for': `Your unit is asked for a soldier: ${ask?.post}, ${ask?.title},${when}. The desk has the answer.`,
    'ask answered': `${ask?.unitName} said ${ask?.answer} to ${ask?.post}, ${ask?.title},${when}${ask?.word ? `: ${ask.word}` : '.'}`,
    'sponsor ended': `${of} sponsor ends on${when}.`,
    'award waiting': `${of} certification ${title}, earned${when}, waits for a commander’s approval.`,
    'award approved': `${of} certification ${title} was approved; it is in force from${when} on.`,
    'award refused': `${of} certification ${title}, earned${when}, was refused; it takes another test.`,
    'decision taken back': `What was decided about ${ofMiddle} certification ${title} was taken back; it waits again.`,
    'award extended': `${of} certification ${title} was extended; its last day is${when}.`,
    'extension taken back': `The extension of ${ofMiddle} certification ${title} was taken back; it ends without it.`,
  }
  return sentences[kind]
}
