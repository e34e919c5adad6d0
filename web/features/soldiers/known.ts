import type { Certification } from '#contract/standards/certifications.ts'

const sorted = (words: readonly string[]): string[] => [...new Set(words)].filter(Boolean).sort()

/** Arms that certifications ask for, and the one chosen. */
export const knownArms = (certifications: readonly Certification[], chosen = ''): string[] =>
  sorted([...certifications.flatMap(({ arms }) => arms), chosen])

/** Grades that certifications are required of, those seen, and the one chosen. */
export const gradesOf = (
  certifications: readonly Certification[],
  people: readonly { grade: string }[] = [],
  chosen = '',
): string[] =>
  sorted([
    ...certifications.flatMap(({ requiredOf }) => requiredOf?.grades ?? []),
    ...people.map(({ grade }) => grade),
    chosen,
  ])
