import type { Catalogue, StandardVersion, StoredCertification } from '../../db/catalogue.db.ts'

const same = (a: string, b: string): boolean => a.trim().toLowerCase() === b.trim().toLowerCase()

/** The certification that a file names by code or title; null: none, or two of that title. */
export function findCertification({ certifications }: Catalogue, name: string): StoredCertification | null {
  const byCode = certifications.find(({ code }) => same(code, name))
  const byTitle = certifications.filter(({ title }) => same(title, name))
  return byCode ?? (byTitle.length === 1 ? byTitle[0]! : null)
}

/** The versions of the standard that a file names by code or title, in order; empty: none, or two of that title. */
export function findVersions({ standards }: Catalogue, name: string): readonly StandardVersion[] {
  const all = [...standards]
  const byCode = all.find(([code]) => same(code, name))
  const byTitle = all.filter(([, versions]) => versions.some(({ definition }) => same(definition.title, name)))
  return (byCode ?? (byTitle.length === 1 ? byTitle[0]! : undefined))?.[1] ?? []
}

/** The version in force on a day: the latest published that begins by then; where none does the latest published. */
export function versionOn(versions: readonly StandardVersion[], day: string): StandardVersion | undefined {
  const published = versions.filter(({ publishedAt }) => publishedAt !== null)
  return published.findLast(({ effectiveFrom }) => effectiveFrom <= day) ?? published[0] ?? versions.at(-1)
}

export const noCertification = (name: string): string =>
  `There is no certification "${name}". Write its code or title, or add it first.`
export const noStandard = (name: string): string =>
  `There is no standard "${name}". Write its code or title, or take it in first.`
