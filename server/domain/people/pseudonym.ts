/** What a removed soldier goes by: names nobody, and the number tells one from another. */
export function pseudonym(number: number): { rosterNumber: string; familyName: string; givenName: string } {
  const digits = String(number).padStart(4, '0')
  return { rosterNumber: `removed-${digits}`, familyName: 'Removed', givenName: `Soldier ${digits}` }
}
