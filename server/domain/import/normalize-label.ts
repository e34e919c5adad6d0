/**
 * A column's label as it is compared: without case, accents and punctuation, single spaces between words.
 * Example: " Roster-No.: " gives "roster no".
 */
export function normalizeLabel(label: string): string {
  return label
    .normalize('NFKD')
    .replace(/\p{Mark}/gu, '')
    .toLowerCase()
    .replace(/[^\p{Letter}\p{Number}]+/gu, ' ')
    .trim()
}
