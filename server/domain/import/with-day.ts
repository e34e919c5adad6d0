/** A bare time `HH:MM` is one of the day given for its row; all else stays as it is. */
export function withDay(moment: unknown, day: unknown): unknown {
  const isBare = typeof moment === 'string' && /^\d\d:\d\d$/.test(moment)
  return isBare && typeof day === 'string' ? `${day}T${moment}` : moment
}
