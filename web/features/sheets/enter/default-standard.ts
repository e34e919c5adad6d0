import type { Standard } from '#contract/standards/standards.ts'

/** Published versions that are in force on a day, or were before: what a paper sheet can be of. The newest of each first, by title. */
export const enterable = (standards: readonly Standard[]): Standard[] =>
  standards
    .filter(({ publishedAt }) => publishedAt !== null)
    .sort((a, b) => a.title.localeCompare(b.title, 'en') || b.version - a.version)

/** The version to begin with: the first by title that is in force on the day. '' when there is none. */
export const defaultStandardId = (standards: readonly Standard[], day: string): string => {
  const candidates = enterable(standards)
  return (candidates.find(({ effectiveFrom }) => effectiveFrom <= day) ?? candidates[0])?.id ?? ''
}
