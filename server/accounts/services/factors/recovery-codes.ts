import { randomBytes } from 'node:crypto'
import { hashPassword } from '../password.ts'

/** Crockford's base32: none of its signs looks like another. */
const SIGNS = '0123456789ABCDEFGHJKMNPQRSTVWXYZ'
const HOW_MANY = 10
/** 55 random bits behind the number; with the hash of passwords and their waits more than can be tried. */
const RANDOM_SIGNS = 11
const LENGTH = RANDOM_SIGNS + 1

/** Ten codes of three groups, like 3K7D-PQ2M-9XTV, which begin with their number; and their hashes, by number. */
export async function newRecoveryCodes(): Promise<{ codes: string[]; hashes: string[] }> {
  const codes = Array.from({ length: HOW_MANY }, (_, number) => {
    const signs = [...randomBytes(RANDOM_SIGNS)].map((byte) => SIGNS[byte % SIGNS.length])
    return `${number}${signs.join('')}`
  })
  const hashes = await Promise.all(codes.map(hashPassword))
  return { codes: codes.map((code) => code.replace(/(.{4})(?=.)/g, '$1-')), hashes }
}

/** A recovery code as it was typed, without blanks and hyphens, and with the signs that were meant; null where it cannot be one. */
export function readRecoveryCodeTyped(typed: string): { number: number; code: string } | null {
  const code = typed.toUpperCase().replaceAll(/[\s-]/g, '').replaceAll('O', '0').replaceAll(/[IL]/g, '1')
  if (code.length !== LENGTH || [...code].some((sign) => !SIGNS.includes(sign)) || !/^\d/.test(code)) return null
  return { number: Number(code[0]), code }
}
