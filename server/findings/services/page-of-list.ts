import { fromCursor, toPage, unknownCursor } from '../../context/cursor.ts'

/**
 * A page of a list that had to be made whole. In: what the query says, the key that names an item, and what its parts are.
 * Throws an AppError for a cursor that names no item of the list.
 */
export function pageOfList<Item>(
  items: readonly Item[],
  { limit, after }: { readonly limit: number; readonly after?: string | undefined },
  keyOf: (item: Item) => readonly (string | number)[],
  parts: readonly ('text' | 'number' | 'uuid')[],
): { items: Item[]; next: string | null } {
  const key = fromCursor(after, parts)
  const last = key === null ? -1 : items.findIndex((item) => keyOf(item).every((part, i) => part === key[i]))
  if (key !== null && last === -1) throw unknownCursor()
  return toPage(items.slice(last + 1, last + 2 + limit), limit, keyOf, (item) => item)
}
