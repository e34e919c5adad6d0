import { type Algorithm, hash, verify } from '@node-rs/argon2'

/** Argon2id with the parameters of the OWASP password storage cheat sheet (19 MiB, two passes, one lane). */
const PARAMETERS = { algorithm: 2 satisfies Algorithm.Argon2id, memoryCost: 19_456, timeCost: 2, parallelism: 1 }

export const hashPassword = (password: string): Promise<string> => hash(password, PARAMETERS)

/** Of a password nobody has, to spend the same time on an unknown name as on a known one. */
const decoy = hashPassword('no account has this password')

/** Whether the password is right; takes as long where there is no such account (hash null). */
export async function passwordFits(passwordHash: string | null, password: string): Promise<boolean> {
  const fits = await verify(passwordHash ?? (await decoy), password)
  return fits && passwordHash !== null
}
