import type { Certification } from '#contract/standards/certifications.ts'

/**
 * The arms somebody carries after a change of grade: those of certifications that require the old grade and not the new
 * one are given up, those of certifications that require the new and not the old are taken up, all others stay. So an NCO
 * who becomes an officer changes the sword for the saber where the unit's requirements say so. In: the terms in force.
 */
export function armsForGrade(
  certifications: readonly Certification[],
  arms: readonly string[],
  before: string,
  after: string,
): string[] {
  const armsOf = (grade: string, other: string) =>
    certifications
      .filter(({ requiredOf }) => requiredOf?.grades?.includes(grade) && !requiredOf.grades.includes(other))
      .flatMap((one) => one.arms)
  const [given, taken] = [armsOf(before, after), armsOf(after, before)]
  return [...new Set([...arms.filter((arm) => !given.includes(arm) || taken.includes(arm)), ...taken])]
}
