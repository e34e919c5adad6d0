import type { Notice } from '#contract/notices/notices.ts'
import { addressTo, paths } from '../../paths.ts'
import { formatDay } from '../../words/format-day.ts'
import { formatTime } from '../../words/format-time.ts'

/** What a notice says in one sentence. In: the standard's title, today, and the zone of clock times. */
export const formatNotice = (notice: Notice, title: string, today: string, zone: string | null): string => {
  const { kind, isSelf, aboutName, day, startsAt, place } = notice
  const who = isSelf ? 'You' : (aboutName ?? 'Somebody')
  const are = isSelf ? 'are' : 'is'
  const when = day ? ` ${formatDay(day, today)}${startsAt ? ` at ${formatTime(startsAt, zone)}` : ''}` : ''
  const at = place ? `, ${place}` : ''
  const of = isSelf ? 'Your' : `${who}’s`
  const sentences: Record<Notice['kind'], string> = {
    booked: `${who} ${are} booked for ${title}:${when}${at}.`,
    moved: `${of} test in ${title} was moved to${when}${at}.`,
    cancelled: `${of} booking for ${title},${when}, was cancelled.`,
    'day called off': `The test day${when}${at} was called off; ${isSelf ? 'your' : `${who}’s`} test in ${title} is not then.`,
    'sheet entered': `${of} sheet in ${title},${when}, was entered.`,
    'sheets taken in': 'Sheets that name you were taken in from a file.',
    'not needed': `${of} booking for ${title},${when}, ended: the test is not needed any more.`,
    'needed again': `${of} test in ${title} is needed again; the booking${when}${at} stands${startsAt ? '' : ', in no slot yet'}.`,
    'sheet held': `${of} sheet in ${title},${when}, is held: the training office decides.`,
    'sheet counted': `${of} held sheet in ${title},${when}, counts now.`,
    'sheet rejected': `${of} sheet in ${title},${when}, was rejected.`,
    'amendment proposed': `An amendment of ${isSelf ? 'your' : `${who}’s`} sheet in ${title},${when}, was proposed; a second person decides.`,
    'amendment refused': `The amendment of ${isSelf ? 'your' : `${who}’s`} sheet in ${title},${when}, was refused; the sheet stays as it was.`,
    'sheet amended': `${of} sheet in ${title},${when}, was amended.`,
    appealed: `${of} sheet in ${title},${when}, was appealed.`,
    'appeal upheld': `The appeal of ${isSelf ? 'your' : `${who}’s`} sheet in ${title},${when}, was upheld.`,
    'appeal denied': `The appeal of ${isSelf ? 'your' : `${who}’s`} sheet in ${title},${when}, was dismissed.`,
    'due day moved': `${of} retest in ${title} is due by${when} now.`,
    'graders differ': `Two graders of ${isSelf ? 'your' : `${who}’s`} test in ${title},${when}, came to different outcomes.`,
    'sheet arrived late': `${of} sheet in ${title},${when}, came in after a later one; what followed it was worked out again.`,
    'soldier asked for': `Your unit is asked for a soldier: ${notice.ask?.post}, ${notice.ask?.title},${when}. The desk has the answer.`,
    'ask answered': `${notice.ask?.unitName} said ${notice.ask?.answer} to ${notice.ask?.post}, ${notice.ask?.title},${when}${notice.ask?.word ? `: ${notice.ask.word}` : '.'}`,
    'sponsor ended': `${of} sponsor ends on${when}.`,
  }
  return sentences[kind]
}

/** Where a notice leads to. */
export const addressOf = ({ sheetId, testDayId, kind, aboutId, ask }: Notice): string => {
  if (kind === 'appealed') return paths.contested
  if (kind === 'soldier asked for') return addressTo(paths.desk, { role: 'leader' })
  if (ask) return addressTo(paths.ceremony, { id: ask.ceremonyId })
  if (kind === 'graders differ') return paths.twiceGraded
  if (sheetId) return addressTo(paths.sheet, { id: sheetId })
  if (testDayId && kind !== 'cancelled' && kind !== 'not needed') return addressTo(paths.testDay, { id: testDayId })
  return aboutId ? addressTo(paths.candidate, { id: aboutId }) : paths.notices
}
