/**
 * Every month from one to another, both included. In and out: `YYYY-MM`.
 * Example: "2025-12" to "2026-02" gives 2025-12, 2026-01, 2026-02. Empty where the last lies before the first.
 */
export function monthsBetween(first: string, last: string): string[] {
  const count = (month: string) => Number(month.slice(0, 4)) * 12 + Number(month.slice(5, 7)) - 1
  const [from, to] = [count(first), count(last)]
  return Array.from({ length: Math.max(0, to - from + 1) }, (_, i) => {
    const year = Math.floor((from + i) / 12)
    return `${String(year).padStart(4, '0')}-${String(((from + i) % 12) + 1).padStart(2, '0')}`
  })
}
