/** The short forms of a list in its order, and the one chosen. */
export const withChosen = (listed: readonly { readonly code: string }[], chosen: string): string[] => {
  const codes = listed.map(({ code }) => code)
  return chosen === '' || codes.includes(chosen) ? codes : [...codes, chosen]
}
