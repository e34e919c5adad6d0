/**
 * Several things in one cell, with a semicolon between them; a semicolon or backslash that belongs to one of them has a
 * backslash before it. `splitList(joinList(x))` is x for all lists of texts that are not blank at either end.
 */
export function splitList(text: string): string[] {
  const items: string[] = ['']
  for (let at = 0; at < text.length; at++) {
    const sign = text[at]!
    if (sign === '\\' && at + 1 < text.length) items[items.length - 1] += text[++at]!
    else if (sign === ';') items.push('')
    else items[items.length - 1] += sign
  }
  return items.map((item) => item.trim()).filter((item) => item !== '')
}

/** See `splitList`. */
export const joinList = (items: readonly string[]): string =>
  items.map((item) => item.replace(/[\\;]/g, (sign) => `\\${sign}`)).join(';')
