import { expect, it } from 'vitest'
import { newRecoveryCodes, readRecoveryCodeTyped } from '../../../server/accounts/services/factors/recovery-codes.ts'
import { passwordFits } from '../../../server/accounts/services/password.ts'

it('makes ten codes that begin with their number, each of its own hash', async () => {
  const { codes, hashes } = await newRecoveryCodes()
  expect(codes).toHaveLength(10)
  expect(new Set(codes.map((code) => code.slice(1))).size).toBe(10)
  for (const [number, code] of codes.entries()) {
    expect(code).toMatch(/^[0-9A-HJKMNP-TV-Z]{4}(-[0-9A-HJKMNP-TV-Z]{4}){2}$/)
    const read = readRecoveryCodeTyped(code)!
    expect(read.number).toBe(number)
    expect(hashes[number]).toMatch(/^\$argon2id\$/)
    expect(await passwordFits(hashes[number]!, read.code)).toBe(true)
  }
})

it('reads a code however it is typed', () => {
  const expected = { number: 3, code: '3K7D01129XTV' }
  for (const typed of ['3K7D-0112-9XTV', ' 3k7d oIl2 9xtv ', '3k7do1l29xtv']) {
    expect(readRecoveryCodeTyped(typed), typed).toEqual(expected)
  }
})

it.each(['', '123456', '3K7D-0112-9XT', '3K7D-0112-9XTVV', 'AK7D-0112-9XTV', '3K7D-0112-9XTU', '3K7D_01129XTV'])(
  'takes %j for none',
  (typed) => {
    expect(readRecoveryCodeTyped(typed)).toBeNull()
  },
)
