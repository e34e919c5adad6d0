const LONGEST = 100
/** Controls, signs without a width, ends of lines, and half characters. */
const UNSEEN = /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Surrogate}]/u

/** A text as the name of an account: one line, the same however it was typed; null where it can be none. */
export function accountName(text: string | null): string | null {
  const name = text?.normalize('NFC').trim() ?? ''
  return name === '' || name.length > LONGEST || UNSEEN.test(name) ? null : name
}
