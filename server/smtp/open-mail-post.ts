import nodemailer from 'nodemailer'
import type { Mail } from '../config/read-mail.ts'
import type { MailOutcome, MailPost, OutgoingMail } from '../context/mail-post.ts'
import { judgeFailure } from './judge-failure.ts'

const CONNECT_MS = 20_000
const SILENCE_MS = 60_000
/** Longer than any mail of ours takes; a server that sends a letter a minute is left. */
const LONGEST_MS = 180_000

/** The way out by a mail server (SMTP, RFC 5321), a connection a mail. */
export function openMailPost(mail: Mail): MailPost {
  const { host, port, tls, login, ca, sender, origin, hour } = mail
  const transport = nodemailer.createTransport({
    host,
    port,
    secure: tls === 'tls',
    requireTLS: tls === 'starttls',
    ignoreTLS: tls === 'off',
    ...(login && { auth: { user: login.user, pass: login.password } }),
    tls: { minVersion: 'TLSv1.2', ...(ca !== null && { ca }) },
    connectionTimeout: CONNECT_MS,
    greetingTimeout: CONNECT_MS,
    socketTimeout: SILENCE_MS,
    disableFileAccess: true,
    disableUrlAccess: true,
  })
  const domain = sender.slice(sender.indexOf('@') + 1)
  return {
    server: `${host}:${port}`,
    sender,
    origin,
    hour,
    async send({ id, to, subject, text, html, at }: OutgoingMail): Promise<MailOutcome> {
      try {
        const sent = transport.sendMail({
          from: { name: 'Reviewstand', address: sender },
          to: { name: '', address: to },
          envelope: { from: sender, to: [to] },
          messageId: `<${id}@${domain}>`,
          date: at,
          subject,
          text,
          html,
          // Nobody is out of office to a machine (RFC 3834); the page asks for sign-in, so there is no token in it (RFC 2369).
          headers: { 'Auto-Submitted': 'auto-generated' },
          list: { unsubscribe: { url: `${origin}/account`, comment: 'My account' } },
        })
        await endsWithin(LONGEST_MS, sent)
        return { outcome: 'accepted' }
      } catch (error) {
        return judgeFailure(error)
      }
    },
  }
}

async function endsWithin(milliseconds: number, work: Promise<unknown>): Promise<void> {
  let timer: NodeJS.Timeout | undefined
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Error(`No end after ${milliseconds / 1000} seconds`)), milliseconds)
    timer.unref()
  })
  try {
    await Promise.race([work, late])
  } finally {
    clearTimeout(timer)
  }
}
