/** Whether two names are one but for letter case, spaces, and how Unicode writes the same letters. */
export const isSameName = (a: string, b: string): boolean => folded(a) === folded(b)

const folded = (name: string): string => name.normalize('NFKC').trim().replace(/\s+/g, ' ').toLowerCase()
