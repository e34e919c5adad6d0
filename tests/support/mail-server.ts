import fs from 'node:fs'
import type { AddressInfo } from 'node:net'
import path from 'node:path'
import { type ParsedMail, simpleParser } from 'mailparser'
import { SMTPServer, type SMTPServerOptions } from 'smtp-server'
import type { Mail } from '../../server/config/read-mail.ts'
import type { MailPost } from '../../server/context/mail-post.ts'
import { openMailPost } from '../../server/smtp/open-mail-post.ts'

const tlsFile = (name: string) => fs.readFileSync(path.join(import.meta.dirname, 'tls', name), 'utf8')

/** The certificate that the mail server shows, which is its own authority. */
export const MAIL_CA = tlsFile('localhost.cert.pem')

export const SENDER = 'reviewstand@unit.example'
export const ORIGIN = 'https://review.example'

/** A mail that came in: as it was sent, and as mailparser reads it. */
export interface Received {
  readonly to: readonly string[]
  readonly from: string
  readonly raw: string
  readonly mail: ParsedMail
  /** By which protocol, as `ESMTPSA`. */
  readonly by: string
}

/** A mail server on loopback. */
export interface MailServer {
  readonly port: number
  readonly received: Received[]
  /** Refuses the next times this happens, each with a reply like `450 4.2.1 Busy`, in order; an empty one is accepted. */
  readonly refuse: { sender: string[]; recipient: string[]; content: string[] }
  /** A way out to it; settings other than usual where they are given. */
  post(more?: Partial<Mail>): MailPost
  close(): Promise<void>
}

interface Setting {
  tls?: Mail['tls']
  login?: { user: string; password: string }
  /** Called with each mail before it is accepted. */
  onMail?: (received: Received) => Promise<void>
  port?: number
}

const reply = (text: string | undefined): Error | null =>
  text ? Object.assign(new Error(text.slice(4)), { responseCode: Number(text.slice(0, 3)) }) : null

export async function startMailServer({ tls = 'off', login, onMail, port = 0 }: Setting = {}): Promise<MailServer> {
  const received: Received[] = []
  const refuse = { sender: [] as string[], recipient: [] as string[], content: [] as string[] }
  const options: SMTPServerOptions = {
    secure: tls === 'tls',
    key: tlsFile('localhost.key.pem'),
    cert: MAIL_CA,
    authOptional: !login,
    disabledCommands: tls === 'starttls' ? [] : tls === 'off' ? ['STARTTLS'] : [],
    disableReverseLookup: true,
    logger: false,
    onAuth: ({ username, password }, _session, callback) => {
      if (username === login?.user && password === login?.password) callback(null, { user: username })
      else callback(new Error('5.7.8 Wrong name or password'))
    },
    onMailFrom: (_address, _session, callback) => callback(reply(refuse.sender.shift())),
    onRcptTo: (_address, _session, callback) => callback(reply(refuse.recipient.shift())),
    onData: (stream, session, callback) => {
      const chunks: Buffer[] = []
      stream.on('data', (chunk: Buffer) => chunks.push(chunk))
      stream.on('end', async () => {
        const refused = reply(refuse.content.shift())
        if (refused) return callback(refused)
        const raw = Buffer.concat(chunks).toString('utf8')
        const { mailFrom, rcptTo } = session.envelope
        const one = {
          to: rcptTo.map(({ address }) => address),
          from: mailFrom ? mailFrom.address : '',
          raw,
          mail: await simpleParser(raw),
          by: session.transmissionType,
        }
        await onMail?.(one)
        received.push(one)
        callback(null)
      })
    },
  }
  const server = new SMTPServer(options)
  server.on('error', () => {}) // A client that breaks off, such as over a certificate.
  await new Promise<void>((resolve) => server.listen(port, '127.0.0.1', resolve))
  const { port: opened } = server.server.address() as AddressInfo
  return {
    port: opened,
    received,
    refuse,
    post: (more = {}) =>
      openMailPost({
        host: 'localhost',
        port: opened,
        tls,
        login: login ?? null,
        ca: MAIL_CA,
        sender: SENDER,
        origin: ORIGIN,
        hour: 6,
        ...more,
      }),
    close: () => new Promise((resolve) => server.close(() => resolve())),
  }
}
