import type { FailedMail, MailStatus } from '#contract/mail/mail.ts'
import { formatMoment } from '../../words/format-moment.ts'
import { capital, countedInWords } from '../../words/format-number.ts'

/** What a mail is, by its kind. */
export const KIND_WORDS: Record<FailedMail['kind'], string> = {
  news: 'news',
  daily: 'daily mail',
  weekly: 'the week',
  code: 'code of an address',
  'address changed': 'notice to the former address',
  test: 'test mail',
}

/** The answer of the page: how the queue stands. */
export const formatQueue = ({ on, waiting, failed }: MailStatus): string => {
  if (!on) return 'This server sends no mail.'
  const parts = [
    waiting > 0 ? `${countedInWords(waiting, 'mail')} ${waiting === 1 ? 'waits' : 'wait'} to be sent` : 'no mail waits',
    ...(failed > 0 ? [`${countedInWords(failed, 'mail')} given up`] : []),
  ]
  return `${capital(parts.join(', '))}.`
}

/** By which way it goes, when the last was accepted, and how many addresses are refused. */
export const formatServer = (
  { on, server, sender, lastSentAt, refusedAddresses }: MailStatus,
  today: string,
): string => {
  if (!on) return 'REVIEWSTAND_SMTP and the settings with it turn it on; the README has them.'
  const last = lastSentAt ? `The last was accepted ${formatMoment(lastSentAt, today)}.` : 'None was accepted lately.'
  const refused =
    refusedAddresses > 0
      ? ` ${capital(countedInWords(refusedAddresses, 'address', 'addresses'))} refused: nothing goes there until confirmed again.`
      : ''
  return `By ${server}, from ${sender}. ${last}${refused} What bounces later comes to the sender’s mailbox, which is not read here.`
}
