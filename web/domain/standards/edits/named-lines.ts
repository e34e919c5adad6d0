import { codeFor } from '#standards/code-for.ts'

interface Named {
  readonly code: string
  readonly title: string
}

/**
 * A list as it was written line by line. What stands there as before keeps all it had; a line that was changed keeps its
 * code, so that figures of the versions go together; a new line gets a code of its own. In: the list as it was before, the
 * lines, and what makes of a line something new or the thing before with other words.
 */
export function fromLines<Item extends { readonly code: string }>(
  before: readonly Item[],
  lines: readonly string[],
  toLine: (item: Item) => string,
  read: (line: string, item: Item | undefined, used: readonly string[]) => Item,
): Item[] {
  const places = placesOf(before.map(toLine), lines)
  const free = new Set(before.map((_, at) => at).filter((at) => !places.includes(at)))
  const used = before.map(({ code }) => code)
  let last = -1
  return lines.map((line, at) => {
    const same = places[at]!
    if (same !== -1) {
      last = same
      return before[same]!
    }
    const next = places.slice(at).find((place) => place !== -1) ?? before.length
    const changed = free.has(last + 1) && last + 1 < next ? last + 1 : undefined
    if (changed !== undefined) {
      free.delete(changed)
      last = changed
    }
    const item = read(line, changed === undefined ? undefined : before[changed], used)
    used.push(item.code)
    return item
  })
}

/** For each line the place where it stood before, each place once; -1 where it is new or changed. */
function placesOf(before: readonly string[], lines: readonly string[]): number[] {
  const taken = new Set<number>()
  return lines.map((line) => {
    const at = before.findIndex((one, place) => one === line && !taken.has(place))
    if (at !== -1) taken.add(at)
    return at
  })
}

/** Things of which only the title is written: faults. */
export const namedLines = <Item extends Named>(before: readonly Item[], lines: readonly string[]): (Item | Named)[] =>
  fromLines<Item | Named>(
    before,
    lines,
    ({ title }) => title,
    (line, item, used) => (item ? { ...item, title: line } : { code: codeFor(line, used), title: line }),
  )
