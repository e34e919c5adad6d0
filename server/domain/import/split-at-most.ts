/** Splits at the first places of a sign, into so many parts at most. */
export function splitAtMost(text: string, sign: string, parts: number): string[] {
  const pieces = text.split(sign)
  return pieces.length <= parts ? pieces : [...pieces.slice(0, parts - 1), pieces.slice(parts - 1).join(sign)]
}
