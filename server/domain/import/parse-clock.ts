/** Minutes since midnight of a time like 09:30, 9:30:00, 0930, 9:30 am or 9.30; null where it is none. */
export function parseClock(text: string): number | null {
  const found = /^(\d{1,2})(?::|\.|h)?(\d{2})(?::\d{2}(?:\.\d+)?)?(?:h| ?([ap])\.?m\.?)?$/i.exec(text.trim())
  if (!found) return null
  const [hours, minutes, half] = [Number(found[1]), Number(found[2]), found[3]?.toLowerCase()]
  if (minutes > 59 || hours > 23 || (half && (hours < 1 || hours > 12))) return null
  return (half ? (hours % 12) + (half === 'p' ? 12 : 0) : hours) * 60 + minutes
}
