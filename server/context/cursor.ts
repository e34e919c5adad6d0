import { Day, Instant, Uuid } from '../contract/common.ts'
import { AppError } from '../errors.ts'

/** Packs the sort key of the last item of a page into an opaque text. */
export const toCursor = (key: readonly (string | number)[]): string =>
  Buffer.from(JSON.stringify(key)).toString('base64url')

/** No version and no instant of ours, in milliseconds, comes near it; PostgreSQL can take it for an instant still. */
const LARGEST_NUMBER = 1e13

const PARTS = {
  text: (part: unknown) => typeof part === 'string' && !part.includes('\0'),
  number: (part: unknown) => typeof part === 'number' && Math.abs(part) < LARGEST_NUMBER,
  uuid: (part: unknown) => Uuid.safeParse(part).success,
  day: (part: unknown) => Day.safeParse(part).success && isOnCalendar(String(part)),
  instant: (part: unknown) => Instant.safeParse(part).success && String(part).endsWith('Z'),
}

/**
 * Unpacks a cursor into its sort key. In: the text, and what its parts are. Throws an AppError for a text that no page
 * of this list gave out.
 */
export function fromCursor(
  after: string | undefined,
  parts: readonly (keyof typeof PARTS)[],
): (string | number)[] | null {
  if (after === undefined) return null
  const key = parse(after)
  if (Array.isArray(key) && key.length === parts.length && parts.every((part, at) => PARTS[part](key[at]))) return key
  throw unknownCursor()
}

/** No page of the list gave this cursor out, or the list has changed since. */
export function unknownCursor(): AppError {
  const detail = 'Take `after` from the `next` of a page of this list, unchanged; begin anew if the list has changed.'
  return new AppError('malformed-request', 'unknown-cursor', detail, [
    { pointer: 'after', rule: 'unknown-cursor', detail },
  ])
}

const isOnCalendar = (day: string): boolean => {
  const time = Date.parse(day)
  return !Number.isNaN(time) && new Date(time).toISOString().startsWith(day)
}

function parse(after: string): unknown {
  try {
    return JSON.parse(Buffer.from(after, 'base64url').toString('utf8'))
  } catch {
    return null
  }
}

/** A page from one row more than asked for: the items, and where the next page begins. */
export function toPage<Row, Item>(
  rows: readonly Row[],
  limit: number,
  keyOf: (row: Row) => readonly (string | number)[],
  toItem: (row: Row) => Item,
): { items: Item[]; next: string | null } {
  const shown = rows.slice(0, limit)
  const last = shown.at(-1)
  return { items: shown.map(toItem), next: rows.length > limit && last ? toCursor(keyOf(last)) : null }
}
