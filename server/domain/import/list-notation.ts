/**
 * Several things in one cell, with a sign between them; a sign or backslash that belongs to one of them has a backslash before
 * it. Each splits what its counterpart joined, for all texts that are not blank at either end.
 */
function split(text: string, between: string): string[] {
  const items: string[] = ['']
  for (let at = 0; at < text.length; at++) {
    const sign = text[at]!
    if (sign === '\\' && at + 1 < text.length) items[items.length - 1] += text[++at]!
    else if (sign === between) items.push('')
    else items[items.length - 1] += sign
  }
  return items.map((item) => item.trim())
}

const joined = (items: readonly string[], between: string): string =>
  items
    .map((item) => item.replace(/[\\;|]/g, (sign) => (sign === '\\' || sign === between ? `\\${sign}` : sign)))
    .join(between)

/** A list, with semicolons; blank things are none. */
export const splitList = (text: string): string[] => split(text, ';').filter((item) => item !== '')

export const joinList = (items: readonly string[]): string => joined(items, ';')

/** The parts of one thing, with bars; a blank part keeps its place. */
export const splitParts = (text: string): string[] => split(text, '|')

/** Blank parts at the end are left out. */
export const joinParts = (parts: readonly (string | null | undefined)[]): string => {
  const written = parts.map((part) => part ?? '')
  const last = written.findLastIndex((part) => part !== '')
  return joined(written.slice(0, last + 1), '|')
}
