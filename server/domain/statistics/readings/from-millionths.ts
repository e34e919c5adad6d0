/** A whole number of millionths as decimal text without trailing zeros. Example: 5250000 gives "5.25". */
export function fromMillionths(millionths: number): string {
  const size = Math.abs(millionths)
  const fraction = String(size % 1_000_000)
    .padStart(6, '0')
    .replace(/0+$/, '')
  const whole = `${millionths < 0 ? '-' : ''}${Math.floor(size / 1_000_000)}`
  return fraction === '' ? whole : `${whole}.${fraction}`
}
