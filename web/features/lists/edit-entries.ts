/** Something of a list, by its short form. */
export interface Entry {
  readonly code: string
  readonly name: string
  readonly confirmed: boolean
}

/** The list with one entry a place further up or down; as it was at its ends. */
export function moved<One>(entries: readonly One[], at: number, by: -1 | 1): One[] {
  const list = [...entries]
  const [one] = list.splice(at, 1)
  if (one === undefined || at + by < 0 || at + by > list.length) return [...entries]
  list.splice(at + by, 0, one)
  return list
}

/** A list begun with another: what is there already stays, with its name where it had none, in the order of the beginning. */
export function begunWith<One extends Entry>(entries: readonly One[], beginning: readonly One[]): One[] {
  const there = new Map(entries.map((entry) => [entry.code, entry]))
  const merged = beginning.map((entry) => {
    const own = there.get(entry.code)
    return own ? { ...entry, name: own.name || entry.name } : entry
  })
  return [...merged, ...entries.filter(({ code }) => !beginning.some((entry) => entry.code === code))]
}

/** Why a short form cannot be added; null: it can. */
export function wrongCode(code: string, entries: readonly Entry[]): string | null {
  if (!/^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$/.test(code)) {
    return 'A short form has letters, digits, dots, dashes or underscores, and no spaces.'
  }
  return entries.some((entry) => entry.code === code) ? `${code} is in the list already.` : null
}
