import { isToken, newToken } from '../token.ts'

/** Tells a token from any other secret, for people and for programs that look for secrets where none should be. */
const PREFIX = 'reviewstand-'

/** A token for a script, of 256 random bits. */
export const newScriptToken = (): string => PREFIX + newToken()

/** Whether a text could be a script's token; any other need not be looked up. */
export const isScriptToken = (text: string): boolean => text.startsWith(PREFIX) && isToken(text.slice(PREFIX.length))
