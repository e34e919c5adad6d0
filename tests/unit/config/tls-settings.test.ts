import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import { readConfig } from '../../../server/config/config.ts'
import { formatHowSafe } from '../../../server/process/start/format-how-safe.ts'

const files = path.resolve(import.meta.dirname, '../../support/tls')
const TLS_CERT_FILE = path.join(files, 'localhost.cert.pem')
const TLS_KEY_FILE = path.join(files, 'localhost.key.pem')
const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'reviewstand-tls-'))
afterAll(() => fs.rmSync(folder, { recursive: true }))

function mistakes(environment: Record<string, string>): string[] {
  try {
    readConfig(environment)
  } catch (error) {
    return (error as Error).message.split('\n')
  }
  return []
}

function file(text: string): string {
  const name = path.join(folder, `${fs.readdirSync(folder).length}.pem`)
  fs.writeFileSync(name, text)
  return name
}

describe('TLS_CERT_FILE and TLS_KEY_FILE', () => {
  it('are read, from the project’s folder where they are relative', () => {
    const { tls } = readConfig({ TLS_CERT_FILE: 'tests/support/tls/localhost.cert.pem', TLS_KEY_FILE })
    expect(tls).toMatchObject({
      cert: fs.readFileSync(TLS_CERT_FILE, 'utf8'),
      key: fs.readFileSync(TLS_KEY_FILE, 'utf8'),
    })
  })

  it('come both or none', () => {
    expect(mistakes({ TLS_CERT_FILE })).toEqual([
      'TLS_KEY_FILE is not set; TLS needs both TLS_CERT_FILE and TLS_KEY_FILE.',
    ])
    expect(mistakes({ TLS_KEY_FILE })[0]).toMatch(/^TLS_CERT_FILE is not set/)
    expect(readConfig({}).tls).toBeNull()
  })

  it('are named when they cannot be read, beside all other mistakes', () => {
    const lines = mistakes({ TLS_CERT_FILE: '/nowhere/cert.pem', TLS_KEY_FILE: folder, PORT: 'x' })
    expect(lines).toHaveLength(3)
    expect(lines[0]).toMatch(/^PORT is "x"/)
    expect(lines[1]).toBe('TLS_CERT_FILE is "/nowhere/cert.pem", which cannot be read (ENOENT).')
    expect(lines[2]).toContain('which cannot be read (EISDIR)')
  })

  it('must belong together', () => {
    const lines = mistakes({ TLS_CERT_FILE, TLS_KEY_FILE: path.join(files, 'other.key.pem') })
    expect(lines).toEqual(['TLS_KEY_FILE is not the key of the certificate in TLS_CERT_FILE; give the pair.'])
  })

  it('are refused without showing what is in them', () => {
    const lines = mistakes({ TLS_CERT_FILE: file('secret'), TLS_KEY_FILE: file('hidden') })
    expect(lines).toHaveLength(2)
    expect(lines[0]).toMatch(/^TLS_CERT_FILE is no certificate; give a file in PEM/)
    expect(lines[1]).toMatch(/^TLS_KEY_FILE is no private key/)
    expect(lines.join()).not.toMatch(/secret|hidden/)
  })
})

describe('TRUST_PROXY', () => {
  it.each(['192.0.2.10', '2001:db8::7', '10.1.0.0/16, 192.0.2.0/24', '127.0.0.1,::1'])('takes %j', (TRUST_PROXY) => {
    expect(readConfig({ TRUST_PROXY }).trustProxy).toEqual(TRUST_PROXY.split(/, ?/))
  })

  it.each(['true', '1', 'proxy.example', '0.0.0.0/0', '::/0', '10.0.0.0/33', '10.0.0.1,', '*'])(
    'refuses %j',
    (TRUST_PROXY) => {
      expect(mistakes({ TRUST_PROXY })).toEqual([
        expect.stringMatching(/^TRUST_PROXY is .*; expected addresses or networks/),
      ])
    },
  )
})

describe('formatHowSafe', () => {
  const now = new Date('2026-06-15T12:00:00Z')
  const { tls } = readConfig({ TLS_CERT_FILE, TLS_KEY_FILE })

  it('warns of a network without TLS, and says what to do', () => {
    const lines = formatHowSafe({ host: '0.0.0.0', tls: null, trustProxy: [] }, now).join('\n')
    expect(lines).toMatch(/passwords .*readable/)
    expect(lines).toMatch(/no offline mode/)
    expect(lines).toMatch(/TLS_CERT_FILE.*TRUST_PROXY/s)
  })

  it('is silent on loopback, with TLS, and behind a proxy', () => {
    expect(formatHowSafe({ host: '127.0.0.1', tls: null, trustProxy: [] }, now)).toEqual([])
    expect(formatHowSafe({ host: '0.0.0.0', tls, trustProxy: [] }, now)).toEqual([])
    expect(formatHowSafe({ host: '0.0.0.0', tls: null, trustProxy: ['192.0.2.10'] }, now)).toEqual([])
  })

  it('says when the certificate has ended', () => {
    expect(formatHowSafe({ host: '0.0.0.0', tls, trustProxy: [] }, new Date('2121-01-01T00:00:00Z'))).toEqual([
      'The certificate in TLS_CERT_FILE ended on 2120-01-01; browsers refuse it. Renew it.',
    ])
  })
})
