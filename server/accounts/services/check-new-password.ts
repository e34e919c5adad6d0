import type { ZxcvbnFactory } from '@zxcvbn-ts/core'
import { invalid } from '../../errors.ts'
import { DEMO_PASSWORD } from './demo-accounts.ts'

/**
 * Fewer guesses than this and a password counts as common, expected or derived from such. Online, where a dozen tries an
 * hour can be made for one account, it is out of reach by far; it keeps what any list of guesses has near its top.
 */
const FEWEST_GUESSES = 1e9

/** Judging takes longer than linear time, and a password whose beginning is hard to guess is hard to guess. */
const JUDGED_CHARACTERS = 128

/** Words anybody would try here; names of the account's own come with it. */
const EXPECTED_HERE = ['reviewstand', 'review', 'readiness', 'calloway', 'certified', DEMO_PASSWORD]

let opened: Promise<ZxcvbnFactory> | undefined

/** Its lists are large, and read only where a password is chosen. */
async function openJudge(): Promise<ZxcvbnFactory> {
  const { ZxcvbnFactory } = await import('@zxcvbn-ts/core')
  const { adjacencyGraphs, dictionary } = await import('@zxcvbn-ts/language-common')
  return new ZxcvbnFactory({ dictionary, graphs: adjacencyGraphs })
}

/**
 * Refuses a password that is commonly used, or made of the names given, of repetitions, sequences or rows of keys: the
 * blocklist of NIST SP 800-63B-4 section 3.1.1.2. It is about the whole password: a common word among others is fine.
 * In: the password, at which pointer it stands in the body, and names to do with the account. Throws an AppError.
 */
export async function checkNewPassword(password: string, pointer: string, names: readonly string[]): Promise<void> {
  opened ??= openJudge()
  const judge = await opened
  const words = [...EXPECTED_HERE, ...names, ...names.flatMap((name) => name.split(/[^\p{L}\p{N}]+/u))]
  const known = words.filter((word) => word.length > 2).map((word) => word.toLowerCase())
  const judged = [...password.normalize('NFC')].slice(0, JUDGED_CHARACTERS).join('')
  const { guesses } = judge.check(judged, known)
  const bare = withoutSeparators(judged)
  const guessesOfBare = bare === null ? guesses : judge.check(bare, known).guesses
  if (Math.min(guesses, guessesOfBare) >= FEWEST_GUESSES) return
  throw invalid(
    'guessable-password',
    pointer,
    'This password is among the first that anybody would try: it is common, repeats itself, follows a row, or is made of names known here. Choose another one; four or five words that do not belong together are good.',
  )
}

/** Dots and dashes between names make a password no harder to guess; null where it consists of much else. */
function withoutSeparators(password: string): string | null {
  const bare = password.replaceAll(/[\s\p{P}]/gu, '')
  return bare.length >= 0.75 * password.length ? bare : null
}
