import { createHash, randomBytes } from 'node:crypto'

/** A token that cannot be guessed: 256 random bits. */
export const newToken = (): string => randomBytes(32).toString('base64url')

/** Whether a text could be a token of ours; any other need not be looked up. */
export const isToken = (text: string): boolean => /^[\w-]{43}$/.test(text)

/** What the record keeps of a token, so that who reads it cannot use it. */
export const hashToken = (token: string): Buffer => createHash('sha256').update(token).digest()
