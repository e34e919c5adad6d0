import type { Item, ReadRow } from './item.ts'

/**
 * Makes one item of all rows that name the same thing: `keyOf` says which, `build` what they say together. Where a row
 * cannot be read the others of its item are refused with it.
 */
export function gatherRows(
  rows: readonly ReadRow[],
  keyOf: (values: ReadRow['values']) => string,
  build: (rows: readonly ReadRow[]) => { value: unknown; problems: Item['problems'] },
): Item[] {
  const groups = new Map<string, ReadRow[]>()
  for (const row of rows) {
    const key = keyOf(row.values)
    const group = groups.get(key)
    if (group) group.push(row)
    else groups.set(key, [row])
  }
  return [...groups.values()].map((group) => {
    const { value, problems } = build(group)
    return {
      rows: group.map(({ number }) => number),
      value,
      problems: [...group.flatMap((row) => row.problems), ...problems],
    }
  })
}

/** Refuses rows of one thing that do not agree about it. */
export function requireAgreement(rows: readonly ReadRow[], keys: readonly string[]): Item['problems'] {
  return keys.flatMap((key) => {
    const odd = rows.find((row) => JSON.stringify(row.values[key]) !== JSON.stringify(rows[0]!.values[key]))
    return odd
      ? [
          {
            key,
            detail: `Rows ${rows[0]!.number} and ${odd.number} are about the same thing and differ here; make them agree.`,
          },
        ]
      : []
  })
}
