/** Plans are kept by PostgreSQL for each connection until it ends, so their number is bounded. */
const MOST_NAMES = 300
/** Longer ones have a row for each thing stored; they hardly come again in the same length. */
const LONGEST_NAMED = 20_000
/** So many texts are remembered as seen once. */
const MOST_SEEN = 2_000

/**
 * Names for prepared statements, so that PostgreSQL parses and plans a statement once for a connection, not each time.
 *
 * Out: a function from the text of a statement to its name, always the same for the same text; undefined where it is to
 * be planned each time: the first time it is seen, when it is very long, or once there are as many names as are allowed.
 */
export function statementNames(): (sql: string) => string | undefined {
  const names = new Map<string, string>()
  const seen = new Set<string>()
  return (sql) => {
    const known = names.get(sql)
    if (known !== undefined || sql.length > LONGEST_NAMED || names.size >= MOST_NAMES) return known
    if (seen.delete(sql)) {
      const name = `reviewstand_${names.size + 1}`
      names.set(sql, name)
      return name
    }
    if (seen.size >= MOST_SEEN) seen.clear()
    seen.add(sql)
    return undefined
  }
}
