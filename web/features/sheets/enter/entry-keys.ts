/** What the keys of an account's sheets in the storage of this device begin with. */
export const entryPrefix = (accountId: string): string => `reviewstand.sheet.${accountId}.`

/** How many sheets an account has on this device that the server does not have yet. */
export const countUnsent = (accountId: string): number => {
  try {
    return Object.keys(localStorage).filter((key) => key.startsWith(entryPrefix(accountId))).length
  } catch {
    return 0
  }
}
