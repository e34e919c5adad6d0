/** First day of the quarter of the year that a day is in. Example: 2026-05-17 is in that of 2026-04-01. */
export function quarterOf(day: string): string {
  const month = Number(day.slice(5, 7))
  return `${day.slice(0, 4)}-${String(month - ((month - 1) % 3)).padStart(2, '0')}-01`
}
