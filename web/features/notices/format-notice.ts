import type { Notice } from '#contract/notices/notices.ts'
import { noticeSentence } from '#notices/notice-sentence.ts'
import { addressTo, paths } from '../../paths.ts'
import { formatDay } from '../../words/format-day.ts'
import { formatTime } from '../../words/format-time.ts'

/** What a notice says in one sentence. In: the title of its standard or certification, today, and the zone of clock times. */
export const formatNotice = (notice: Notice, title: string, today: string, zone: string | null): string => {
  const { day, startsAt } = notice
  const time = startsAt ? ` at ${formatTime(startsAt, zone)}` : ''
  return noticeSentence(notice, title, day ? `${formatDay(day, today)}${time}` : '')
}

/** Where a notice leads to. */
export const addressOf = ({ sheetId, testDayId, kind, aboutId, ask }: Notice): string => {
  if (kind === 'appealed') return paths.contested
  if (kind === 'soldier asked for') return addressTo(paths.desk, { role: 'leader' })
  if (kind === 'award waiting') return paths.approvals
  if (ask) return addressTo(paths.ceremony, { id: ask.ceremonyId })
  if (kind === 'graders differ') return paths.twiceGraded
  if (sheetId) return addressTo(paths.sheet, { id: sheetId })
  if (testDayId && kind !== 'cancelled' && kind !== 'not needed') return addressTo(paths.testDay, { id: testDayId })
  return aboutId ? addressTo(paths.candidate, { id: aboutId }) : paths.notices
}
