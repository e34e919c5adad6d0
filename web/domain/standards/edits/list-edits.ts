/** A list with one thing at another place. Places outside the list are taken for its ends. */
export function movedTo<Item>(list: readonly Item[], from: number, to: number): Item[] {
  const rest = list.filter((_, at) => at !== from)
  const item = list[from]
  if (item === undefined) return [...list]
  rest.splice(Math.min(Math.max(to, 0), rest.length), 0, item)
  return rest
}

/** A list with one thing replaced, or without it (null). */
export const replaced = <Item>(list: readonly Item[], at: number, item: Item | null): Item[] =>
  item === null ? list.filter((_, index) => index !== at) : list.map((one, index) => (index === at ? item : one))
