import { Secret, TOTP } from 'otpauth'
import { describe, expect, it } from 'vitest'
import { appAddress, newAppSecret, stepOfCode } from '../../../server/accounts/services/factors/time-code.ts'

/** RFC 6238, appendix B: the secret for SHA-1, times in seconds, their steps, and the codes of eight digits. */
const SECRET = Secret.fromUTF8('12345678901234567890').base32
const VECTORS: readonly (readonly [seconds: number, step: number, code: string])[] = [
  [59, 0x1, '94287082'],
  [1_111_111_109, 0x23523ec, '07081804'],
  [1_111_111_111, 0x23523ed, '14050471'],
  [1_234_567_890, 0x273ef07, '89005924'],
  [2_000_000_000, 0x3f940aa, '69279037'],
  [20_000_000_000, 0x27bc86aa, '65353130'],
]
const at = (seconds: number) => new Date(seconds * 1000)

describe('codes by the time', () => {
  it.each(VECTORS)('are those of RFC 6238 at %i seconds', (seconds, step, code) => {
    expect(stepOfCode(SECRET, code, at(seconds), 8)).toBe(step)
    expect(stepOfCode(SECRET, code.slice(2), at(seconds))).toBe(step)
  })

  it.each([
    ['SHA256', '12345678901234567890123456789012', '46119246'],
    ['SHA512', '1234567890123456789012345678901234567890123456789012345678901234', '90693936'],
  ])('the library has also those with %s', (algorithm, secret, code) => {
    const totp = new TOTP({ secret: Secret.fromUTF8(secret), algorithm, digits: 8 })
    expect(totp.generate({ timestamp: 59_000 })).toBe(code)
  })

  it('are taken one step before and after, and no further', () => {
    const [seconds, step, code] = VECTORS[3]!
    const start = step * 30
    expect(seconds).toBeGreaterThanOrEqual(start)
    const stepAt = (time: number) => stepOfCode(SECRET, code, at(time), 8)
    expect([start - 31, start - 30, start + 59, start + 60].map(stepAt)).toEqual([null, step, step, null])
  })

  it('are of six digits, and nothing else is one', () => {
    for (const code of ['', '1', '00592', '0059244', '89005924', 'abcdef', '٠٠٥٩٢٤']) {
      expect(stepOfCode(SECRET, code, at(1_234_567_890)), code).toBeNull()
    }
  })
})

describe('the secret of an app', () => {
  it('is of 160 bits, and another each time', () => {
    const [first, second] = [newAppSecret(), newAppSecret()]
    expect(first).toMatch(/^[A-Z2-7]{32}$/)
    expect(second).not.toBe(first)
  })

  it('is scanned from an address that names product and account', () => {
    const address = new URL(appAddress(SECRET, 'sgt.o’dell: 2/A'))
    expect(address.protocol).toBe('otpauth:')
    expect(decodeURIComponent(address.pathname)).toContain('Reviewstand:sgt.o’dell')
    expect(Object.fromEntries(address.searchParams)).toMatchObject({
      issuer: 'Reviewstand',
      secret: SECRET,
      algorithm: 'SHA1',
      digits: '6',
      period: '30',
    })
  })
})
