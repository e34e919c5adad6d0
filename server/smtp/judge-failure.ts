import type { MailOutcome } from '../context/mail-post.ts'

/** What nodemailer says of a mail that was not accepted. */
interface Failure {
  readonly message?: string
  readonly responseCode?: number
  readonly response?: string
  /** At which command: `RCPT TO`, `DATA`, `MAIL FROM`, `CONN`, `AUTH …`. */
  readonly command?: string
}

const LONGEST_PROBLEM = 300

/** Bad addresses, and mailboxes that are closed (RFC 3463, 3.2 and 3.3); what is about policy or size says nothing of the address. */
const ADDRESS_STATUS = /\b5\.(1\.[1-6]|1\.10|2\.1)\b/
const SOME_STATUS = /\b5\.\d{1,3}\.\d{1,3}\b/
/** Replies to a recipient that mean the mailbox, where no finer status says otherwise (RFC 5321, 4.2.3). */
const ADDRESS_REPLIES: readonly number[] = [550, 551, 553]

/**
 * Whether a failure is for good, and whom it is about. Only what is said of the recipient or of this mail's content is about the mail;
 * all before (connection, TLS, sign-in, sender) stops every other mail as well and is for the administrator to mend.
 */
export function judgeFailure(error: unknown): Exclude<MailOutcome, { outcome: 'accepted' }> {
  const { message, response, responseCode = 0, command = '' } = error as Failure
  const problem = (response ?? message ?? String(error)).replace(/\p{Cc}+/gu, ' ').slice(0, LONGEST_PROBLEM)
  const isAboutMail = (command === 'RCPT TO' || command === 'DATA') && responseCode >= 400 && responseCode !== 421
  if (!isAboutMail) return { outcome: 'later', problem, isServer: true }
  if (responseCode < 500) return { outcome: 'later', problem, isServer: false }
  const isAddress = SOME_STATUS.test(problem)
    ? ADDRESS_STATUS.test(problem)
    : command === 'RCPT TO' && ADDRESS_REPLIES.includes(responseCode)
  return { outcome: 'refused', problem, isAddress }
}
