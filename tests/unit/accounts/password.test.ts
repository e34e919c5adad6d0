import { beforeEach, expect, it, vi } from 'vitest'
import { hashPassword, passwordFits } from '../../../server/accounts/services/password.ts'

const verified = vi.hoisted(() => [] as string[])
vi.mock('@node-rs/argon2', async (original) => {
  const argon2 = await original<typeof import('@node-rs/argon2')>()
  const verify: typeof argon2.verify = (hash, password) => {
    verified.push(String(hash))
    return argon2.verify(hash, password)
  }
  return { ...argon2, verify }
})
beforeEach(() => {
  verified.length = 0
})

const PASSWORD = 'the drums beat at noon'
/** OWASP Password Storage Cheat Sheet, Argon2id: 19 MiB of memory, two iterations, one degree of parallelism. */
const STRENGTH = /^\$argon2id\$v=19\$m=19456,t=2,p=1\$/

it('does the same work where there is no account, or none with a password', async () => {
  const hash = await hashPassword(PASSWORD)
  expect(await passwordFits(hash, PASSWORD)).toBe(true)
  expect(await passwordFits(hash, 'the drums beat at dawn')).toBe(false)
  expect(await passwordFits(null, PASSWORD)).toBe(false)
  expect(verified).toHaveLength(3)
  for (const each of verified) expect(each).toMatch(STRENGTH)
})

it('lets in nobody with the password that is hashed for want of an account', async () => {
  expect(await passwordFits(null, 'no account has this password')).toBe(false)
})

it('salts each hash, and takes letters as the same however they are composed', async () => {
  const [one, other] = await Promise.all([hashPassword('Grüße aus der Wache'), hashPassword('Grüße aus der Wache')])
  expect(one).not.toBe(other)
  expect(await passwordFits(one, 'Gru\u0308ße aus der Wache')).toBe(true)
})
