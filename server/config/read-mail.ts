import fs from 'node:fs'
import path from 'node:path'

/** How mail goes out. */
export interface Mail {
  readonly host: string
  readonly port: number
  /** At once, by STARTTLS (never without), or none, which only a mail server on this machine is given. */
  readonly tls: 'tls' | 'starttls' | 'off'
  /** Null: it asks for none. */
  readonly login: { readonly user: string; readonly password: string } | null
  /** Certificates, as PEM, to trust beside those that Node trusts; null: none. */
  readonly ca: string | null
  readonly sender: string
  /** Address that links begin with, without a path. */
  readonly origin: string
  readonly hour: number
}

type Given = Record<string, string | undefined>

const PORTS = { tls: 465, starttls: 587, off: 25 } as const

/** Settings that mean nothing without a mail server. */
const OURS = ['TLS', 'USER', 'PASSWORD', 'PASSWORD_FILE', 'CA_FILE'].map((name) => `REVIEWSTAND_SMTP_${name}`)

/**
 * Puts together what mail needs. In: the folder that relative paths are meant from, the settings as given, each of its own form;
 * whether a host is this machine. Out: null where mail is off, and what is wrong, one sentence each.
 */
export function readMail(
  folder: string,
  given: Given,
  isLoopback: (host: string) => boolean,
): { mail: Mail | null; mistakes: string[] } {
  const mistakes: string[] = []
  if (given.REVIEWSTAND_SMTP === undefined) {
    const lost = [...OURS, 'REVIEWSTAND_MAIL_FROM', 'REVIEWSTAND_MAIL_HOUR'].filter((name) => given[name] !== undefined)
    for (const name of lost)
      mistakes.push(`${name} is set, but no mail is sent; set REVIEWSTAND_SMTP too, or take it out.`)
    return { mail: null, mistakes }
  }
  const server = /^(?<host>\[[\da-f:.]+\]|[^:\s]+?)(:(?<port>\d{1,5}))?$/i.exec(given.REVIEWSTAND_SMTP)?.groups
  if (!server?.host || Number(server.port ?? 1) > 65_535 || server.port === '0') {
    mistakes.push(
      'REVIEWSTAND_SMTP is no mail server; expected a host with or without a port, like mail.example.org:587.',
    )
  }
  const host = (server?.host ?? '').replace(/^\[(.*)\]$/, '$1')
  const tls = (given.REVIEWSTAND_SMTP_TLS ?? 'starttls') as Mail['tls']
  if (tls === 'off' && host !== '' && !isLoopback(host)) {
    mistakes.push(
      'REVIEWSTAND_SMTP_TLS is "off", but mail names people, and goes without TLS only to a mail server on this machine; use "starttls" or "tls".',
    )
  }
  for (const [name, form] of [
    ['REVIEWSTAND_MAIL_FROM', 'the address that mail comes from'],
    ['REVIEWSTAND_ADDRESS', 'the address that people open this server by, for the links'],
  ] as const) {
    if (given[name] === undefined) mistakes.push(`${name} is not set; with REVIEWSTAND_SMTP give ${form}.`)
  }
  const mail = {
    host,
    port: server?.port ? Number(server.port) : (PORTS[tls] ?? 0),
    tls,
    login: readLogin(folder, given, mistakes),
    ca: readFile(folder, 'REVIEWSTAND_SMTP_CA_FILE', given, mistakes),
    sender: given.REVIEWSTAND_MAIL_FROM ?? '',
    origin: (given.REVIEWSTAND_ADDRESS ?? '').replace(/\/$/, ''),
    hour: Number(given.REVIEWSTAND_MAIL_HOUR ?? 6),
  }
  return { mail, mistakes }
}

function readLogin(folder: string, given: Given, mistakes: string[]): Mail['login'] {
  const { REVIEWSTAND_SMTP_USER: user, REVIEWSTAND_SMTP_PASSWORD: plain } = given
  const fromFile = readFile(folder, 'REVIEWSTAND_SMTP_PASSWORD_FILE', given, mistakes)?.replace(/\r?\n$/, '') ?? null
  if (plain !== undefined && given.REVIEWSTAND_SMTP_PASSWORD_FILE !== undefined) {
    mistakes.push('REVIEWSTAND_SMTP_PASSWORD and REVIEWSTAND_SMTP_PASSWORD_FILE are both set; keep one of them.')
  }
  const password = plain ?? fromFile
  if (user === undefined && password === null) return null
  if (user === undefined || !password) {
    const missing = user === undefined ? 'REVIEWSTAND_SMTP_USER is not' : 'No password of REVIEWSTAND_SMTP_USER is'
    // A file that cannot be read is a mistake of its own.
    if (user === undefined || given.REVIEWSTAND_SMTP_PASSWORD_FILE === undefined || fromFile === '') {
      mistakes.push(`${missing} set; a mail server that asks for a name needs both, else take both out.`)
    }
    return null
  }
  return { user, password }
}

function readFile(folder: string, name: string, given: Given, mistakes: string[]): string | null {
  const file = given[name]
  if (file === undefined) return null
  try {
    return fs.readFileSync(path.resolve(folder, file), 'utf8')
  } catch (error) {
    mistakes.push(
      `${name} is ${JSON.stringify(file)}, which cannot be read (${(error as NodeJS.ErrnoException).code}).`,
    )
    return null
  }
}
