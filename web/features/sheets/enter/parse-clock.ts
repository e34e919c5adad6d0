/**
 * A clock time as people type it: "0931", "931", "9:31", "9.31", "09:31". Out: "09:31", or null when it is none.
 */
export const parseClock = (typed: string): string | null => {
  const match = /^(\d{1,2})[:.h ]?(\d{2})$/.exec(typed.trim())
  if (!match) return null
  const [hours, minutes] = [Number(match[1]), Number(match[2])]
  if (hours > 23 || minutes > 59) return null
  return `${String(hours).padStart(2, '0')}:${String(minutes).padStart(2, '0')}`
}
