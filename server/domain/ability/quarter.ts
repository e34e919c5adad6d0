/** First day of the quarter of the year that a day is in. Example: 2026-05-17 is in that of 2026-04-01. */
export function quarterOf(day: string): string {
  const month = Number(day.slice(5, 7))
  return `${day.slice(0, 4)}-${String(month - ((month - 1) % 3)).padStart(2, '0')}-01`
}

/** First days of all quarters from that of one day through that of another, both inclusive. */
export function quartersBetween(first: string, last: string): string[] {
  const quarters: string[] = []
  let [year, month] = [Number(first.slice(0, 4)), Number(quarterOf(first).slice(5, 7))]
  for (;;) {
    const quarter = `${String(year).padStart(4, '0')}-${String(month).padStart(2, '0')}-01`
    if (quarter > last) return quarters
    quarters.push(quarter)
    month += 3
    if (month > 12) [year, month] = [year + 1, 1]
  }
}
