import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import { readConfig } from '../../../server/config/config.ts'

const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'reviewstand-mail-'))
afterAll(() => fs.rmSync(folder, { recursive: true, force: true }))
const fileOf = (name: string, text: string) => {
  fs.writeFileSync(path.join(folder, name), text)
  return path.join(folder, name)
}

const ON = {
  REVIEWSTAND_SMTP: 'mail.example.org',
  REVIEWSTAND_MAIL_FROM: 'reviewstand@example.org',
  REVIEWSTAND_ADDRESS: 'https://review.example.org',
}
const mailOf = (given: Record<string, string>) => readConfig({ ...ON, ...given }).mail
const mistakesOf = (given: Record<string, string>): string[] => {
  try {
    readConfig(given)
    return []
  } catch (error) {
    return (error as Error).message.split('\n')
  }
}

describe('mail', () => {
  it('is off without a mail server', () => {
    expect(readConfig({}).mail).toBeNull()
    expect(readConfig({ REVIEWSTAND_ADDRESS: 'https://review.example.org' }).mail).toBeNull()
  })

  it('goes by STARTTLS and without a name unless told otherwise', () => {
    expect(mailOf({})).toEqual({
      host: 'mail.example.org',
      port: 587,
      tls: 'starttls',
      login: null,
      ca: null,
      sender: 'reviewstand@example.org',
      origin: 'https://review.example.org',
      hour: 6,
    })
    expect(mailOf({ REVIEWSTAND_SMTP_TLS: 'tls' })?.port).toBe(465)
    expect(mailOf({ REVIEWSTAND_SMTP: '[::1]:2525', REVIEWSTAND_SMTP_TLS: 'off' })).toMatchObject({
      host: '::1',
      port: 2525,
    })
    expect(mailOf({ REVIEWSTAND_ADDRESS: 'https://review.example.org/', REVIEWSTAND_MAIL_HOUR: '0' })).toMatchObject({
      origin: 'https://review.example.org',
      hour: 0,
    })
  })

  it('takes the password from a setting or a file, and its own authority from a file', () => {
    const user = { REVIEWSTAND_SMTP_USER: 'review' }
    expect(mailOf({ ...user, REVIEWSTAND_SMTP_PASSWORD: ' a b ' })?.login).toEqual({
      user: 'review',
      password: ' a b ',
    })
    const fromFile = { ...user, REVIEWSTAND_SMTP_PASSWORD_FILE: fileOf('password', 'orchard 7\n') }
    expect(mailOf(fromFile)?.login).toEqual({ user: 'review', password: 'orchard 7' })
    expect(mailOf({ REVIEWSTAND_SMTP_CA_FILE: fileOf('ca.pem', 'PEM') })?.ca).toBe('PEM')
  })

  it.each<[string, Record<string, string>, RegExp]>([
    [
      'a sender',
      { REVIEWSTAND_SMTP: 'mail.example.org', REVIEWSTAND_ADDRESS: ON.REVIEWSTAND_ADDRESS },
      /^REVIEWSTAND_MAIL_FROM is not set/,
    ],
    [
      'where links lead',
      { REVIEWSTAND_SMTP: 'mail.example.org', REVIEWSTAND_MAIL_FROM: 'a@b.example' },
      /^REVIEWSTAND_ADDRESS is not set/,
    ],
    ['a name to the password', { ...ON, REVIEWSTAND_SMTP_PASSWORD: 'x' }, /^REVIEWSTAND_SMTP_USER is not set/],
    ['a password to the name', { ...ON, REVIEWSTAND_SMTP_USER: 'x' }, /^No password of REVIEWSTAND_SMTP_USER/],
    [
      'a file that can be read',
      { ...ON, REVIEWSTAND_SMTP_USER: 'x', REVIEWSTAND_SMTP_PASSWORD_FILE: '/nowhere' },
      /PASSWORD_FILE is "\/nowhere", which cannot be read \(ENOENT\)/,
    ],
    ['TLS to another machine', { ...ON, REVIEWSTAND_SMTP_TLS: 'off' }, /only to a mail server on this machine/],
    [
      'a port that is one',
      { ...ON, REVIEWSTAND_SMTP: 'mail.example.org:70000' },
      /^REVIEWSTAND_SMTP is no mail server/,
    ],
    ['a host', { ...ON, REVIEWSTAND_SMTP: 'smtp://mail.example.org' }, /^REVIEWSTAND_SMTP is no mail server/],
    [
      'one sender',
      { ...ON, REVIEWSTAND_MAIL_FROM: 'Unit <a@b.example>' },
      /^REVIEWSTAND_MAIL_FROM is .*expected one mail address/,
    ],
    [
      'a sender of one line',
      { ...ON, REVIEWSTAND_MAIL_FROM: 'a@b.example\r\nBcc: c@d.example' },
      /^REVIEWSTAND_MAIL_FROM is/,
    ],
    [
      'an address without a path',
      { ...ON, REVIEWSTAND_ADDRESS: 'https://review.example.org/app' },
      /^REVIEWSTAND_ADDRESS is .*without a path/,
    ],
    ['an hour', { ...ON, REVIEWSTAND_MAIL_HOUR: '24' }, /^REVIEWSTAND_MAIL_HOUR is "24"; expected an hour/],
    ['a mail server to the rest', { REVIEWSTAND_SMTP_USER: 'x' }, /^REVIEWSTAND_SMTP_USER is set, but no mail is sent/],
  ])('needs %s', (_, given, line) => {
    const mistakes = mistakesOf(given)
    expect(mistakes).toHaveLength(1)
    expect(mistakes[0]).toMatch(line)
  })

  it('repeats no password in what it says', () => {
    const both = {
      ...ON,
      REVIEWSTAND_SMTP_USER: 'x',
      REVIEWSTAND_SMTP_PASSWORD: 'orchard\n7',
      REVIEWSTAND_SMTP_PASSWORD_FILE: fileOf('p', 'lantern'),
    }
    const said = mistakesOf(both).join('\n')
    expect(said).toContain('are both set')
    expect(said).not.toMatch(/orchard|lantern/)
  })
})
