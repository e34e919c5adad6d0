interface Version {
  readonly publishedAt: string | null
  readonly effectiveFrom: string
}

/** The published versions of one standard that are in force on some day from the first through the last, in order of their beginning. */
export const inForceBetween = <V extends Version>(versions: readonly V[], first: string, last: string): V[] => {
  const published = versions
    .filter(({ publishedAt }) => publishedAt !== null)
    .sort((a, b) => a.effectiveFrom.localeCompare(b.effectiveFrom))
  return published.filter(({ effectiveFrom }, index) => {
    const next = published[index + 1]
    return effectiveFrom <= last && (next === undefined || next.effectiveFrom > first)
  })
}
