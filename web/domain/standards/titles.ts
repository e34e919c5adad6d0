import type { Certification } from '#contract/standards/certifications.ts'
import type { Standard } from '#contract/standards/standards.ts'

/** The versions of a standard, the newest first. */
export const versionsOf = (standards: readonly Standard[], code: string): Standard[] =>
  standards.filter((standard) => standard.code === code).sort((a, b) => b.version - a.version)

/** Of the versions of one standard, the newest first, that in force on a day; where none is, the newest. */
export const versionInForce = (versions: readonly Standard[], day: string): Standard | undefined =>
  versions.find(({ publishedAt, effectiveFrom }) => publishedAt !== null && effectiveFrom <= day) ?? versions[0]

/** The newest version of every standard, by title. */
export const newestStandards = (standards: readonly Standard[]): Standard[] =>
  [...new Set(standards.map(({ code }) => code))]
    .map((code) => versionsOf(standards, code)[0]!)
    .sort((a, b) => a.title.localeCompare(b.title, 'en'))

/** A standard's title by code; the code itself while it is unknown. */
export const standardTitle = (standards: readonly Standard[], code: string): string =>
  versionsOf(standards, code)[0]?.title ?? code

/** The title under a code, be it of a certification or a standard; the code itself while it is unknown. */
export const titleUnder =
  (certifications: readonly Certification[], standards: readonly Standard[]) =>
  (code: string): string => {
    const title = certificationTitle(certifications, code)
    return title === code ? standardTitle(standards, code) : title
  }

/** A minor or major measure's title by the codes of standard and measure, from the newest version that has it. */
export const measureTitle = (standards: readonly Standard[], standard: string, measure: string): string => {
  for (const { minors, majors } of versionsOf(standards, standard)) {
    const found = [...minors, ...majors].find(({ code }) => code === measure)
    if (found) return found.title
  }
  return measure
}

/** A fault's title by the codes of standard, measure and fault. */
export const faultTitle = (
  standards: readonly Standard[],
  standard: string,
  measure: string,
  fault: string,
): string => {
  for (const { minors, majors } of versionsOf(standards, standard)) {
    const found = [...minors, ...majors].find(({ code }) => code === measure)?.faults.find(({ code }) => code === fault)
    if (found) return found.title
  }
  return fault
}

/** Certifications in force or coming, one a code: the terms that took effect last by `day`, else the first to come. By title. */
export const certificationsOn = (certifications: readonly Certification[], day: string): Certification[] => {
  const byCode = new Map<string, Certification>()
  const inOrder = [...certifications].sort((a, b) => a.effectiveFrom.localeCompare(b.effectiveFrom))
  for (const terms of inOrder) if (terms.effectiveFrom <= day || !byCode.has(terms.code)) byCode.set(terms.code, terms)
  return [...byCode.values()].sort((a, b) => a.title.localeCompare(b.title, 'en'))
}

/** A certification's title by code; the code itself while it is unknown. */
export const certificationTitle = (certifications: readonly Certification[], code: string): string =>
  certifications.find((certification) => certification.code === code)?.title ?? code
