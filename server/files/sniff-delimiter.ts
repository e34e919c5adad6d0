const DELIMITERS = [',', ';', '\t', '|'] as const
const RECORDS_LOOKED_AT = 40

/**
 * What stands between the cells of a table in text: the sign that most records have equally often outside quotes.
 * In: the beginning of the text. A line `sep=;`, as some spreadsheet programs write, says it outright.
 */
export function sniffDelimiter(start: string): string {
  const said = /^sep=(.)\r?\n/i.exec(start)
  if (said) return said[1]!
  const records = countsByRecord(start).filter((counts) => counts.some((count) => count > 0))
  const scores = DELIMITERS.map((delimiter, at) => {
    const often = new Map<number, number>()
    for (const counts of records) if (counts[at]! > 0) often.set(counts[at]!, (often.get(counts[at]!) ?? 0) + 1)
    const [columns = 0, times = 0] = [...often].sort((a, b) => b[1] - a[1] || b[0] - a[0])[0] ?? []
    return { delimiter, times, columns }
  })
  return scores.reduce((best, next) =>
    next.times > best.times || (next.times === best.times && next.columns > best.columns) ? next : best,
  ).delimiter
}

function countsByRecord(text: string): number[][] {
  const records = [DELIMITERS.map(() => 0)]
  let quoted = false
  for (const sign of text) {
    if (sign === '"') quoted = !quoted
    else if (quoted) continue
    else if (sign === '\n' || sign === '\r') {
      if (records.length > RECORDS_LOOKED_AT) break
      records.push(DELIMITERS.map(() => 0))
    } else {
      const at = DELIMITERS.indexOf(sign as (typeof DELIMITERS)[number])
      if (at >= 0) records.at(-1)![at]! += 1
    }
  }
  return records
}
