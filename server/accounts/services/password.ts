import { type Algorithm, hash, verify } from '@node-rs/argon2'
import { inTurn } from './hashing-turns.ts'

/** Argon2id with the parameters of the OWASP password storage cheat sheet (19 MiB, two passes, one lane). */
const PARAMETERS = { algorithm: 2 satisfies Algorithm.Argon2id, memoryCost: 19_456, timeCost: 2, parallelism: 1 }

/** The same text, typed on different devices, may come composed or decomposed; NIST SP 800-63B-4 has it normalised. */
const normalized = (password: string): string => password.normalize('NFC')

export const hashPassword = (password: string): Promise<string> => inTurn(() => hash(normalized(password), PARAMETERS))

/** Of a password nobody has, to spend the same time on an unknown name as on a known one. */
const decoy = hashPassword('no account has this password')

/** Whether the password is right; takes as long where there is no such account (hash null). */
export async function passwordFits(passwordHash: string | null, password: string): Promise<boolean> {
  const compared = passwordHash ?? (await decoy)
  const fits = await inTurn(() => verify(compared, normalized(password)))
  return fits && passwordHash !== null
}
