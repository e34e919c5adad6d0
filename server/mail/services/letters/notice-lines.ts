import type { Notice } from '../../../contract/notices/notices.ts'
import { momentInMail } from '../../../domain/mail/day-in-mail.ts'
import type { LetterLine } from '../../../domain/mail/write-letter.ts'
import { noticeSentence } from '../../../domain/notices/notice-sentence.ts'
import type { Titles } from './titles.ts'

/** A notice as a line of a letter, with the page it leads to. In: titles, and the zone of clock times. */
export function noticeLine(notice: Notice, titles: Titles, zone: string): LetterLine {
  const moment = notice.day ? momentInMail(notice.day, notice.startsAt, zone) : ''
  const { standard, certification } = notice
  const title = certification ? titles.certification(certification) : titles.standard(standard ?? '')
  return { text: noticeSentence(notice, title, moment), path: pathOf(notice) }
}

function pathOf({ kind, sheetId, testDayId, aboutId, ask }: Notice): string {
  if (kind === 'soldier asked for') return '/desk/leader'
  if (kind === 'award waiting') return '/approvals'
  if (ask) return `/ceremonies/${ask.ceremonyId}`
  if (sheetId) return `/sheets/${sheetId}`
  if (testDayId && kind !== 'cancelled' && kind !== 'not needed') return `/test-days/${testDayId}`
  return aboutId ? `/candidates/${aboutId}` : '/notices'
}
