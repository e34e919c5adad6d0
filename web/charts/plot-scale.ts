/** A scale from 0 to a round number at or above the greatest count, with four or five whole ticks. */
export const plotScale = (greatest: number): { top: number; ticks: number[] } => {
  const power = 10 ** Math.floor(Math.log10(Math.max(greatest, 1)))
  const step = [0.2, 0.5, 1, 2, 5]
    .map((part) => Math.max(1, part * power))
    .find((candidate) => Number.isInteger(candidate) && greatest / candidate <= 5)
  const each = step ?? 2 * power
  const top = Math.max(1, Math.ceil(greatest / each)) * each
  return { top, ticks: Array.from({ length: top / each + 1 }, (_, index) => index * each) }
}
