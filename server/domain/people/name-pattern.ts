/**
 * A regular expression of PostgreSQL (to match without regard to case) that finds any of some words where they stand by
 * themselves; null where there is none to look for.
 */
export function namePattern(words: readonly string[]): string | null {
  const found = words.map((word) => word.trim()).filter((word) => word !== '')
  if (found.length === 0) return null
  const escaped = found.map((word) => word.replace(/[\\^$.*+?()[\]{}|]/g, '\\$&'))
  return `(^|[^[:alnum:]])(${escaped.join('|')})([^[:alnum:]]|$)`
}
