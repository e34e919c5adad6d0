import { retestsOf, statusOf } from '../certification/status.ts'
import { termsOn } from '../certification/terms-on.ts'
import type { Certification } from '../certification/types.ts'
import type { Surroundings } from '../validity/judge-sheet.ts'
import type { Follower } from './follow-certification.ts'
import { isCertified } from './is-certified.ts'
import type { AssessedSheet, Dossier, JudgingCatalogue, Qualification } from './types.ts'

/** What the conditions of a valid test ask about what lies around a sheet, from what comes before it in order. */
export function surroundings(
  catalogue: JudgingCatalogue,
  dossier: Dossier,
  people: ReadonlyMap<string, Qualification>,
  followers: ReadonlyMap<string, Follower>,
  sheet: AssessedSheet,
): Surroundings {
  const requiring = catalogue.certifications.filter(({ standards }) => standards.includes(sheet.standard))
  const candidateArms = dossier.periods.find((one) => isIn(one.from, one.through, sheet.day))?.arms ?? []
  const grader = people.get(sheet.graderId)
  const sponsor = sheet.sponsorId === null ? undefined : people.get(sheet.sponsorId)
  const isCertifiedHere = (person: Qualification | undefined): boolean =>
    person !== undefined && requiring.some(({ code }) => isCertified(person, code, sheet))
  const awardDays = requiring.flatMap(({ code }) => followers.get(code)!.before(sheet.day).award?.awardedOn ?? [])
  return {
    ...versionOf(catalogue, sheet),
    candidateArms,
    sponsorships: dossier.sponsorships,
    lastAwardOn: awardDays.sort().at(-1) ?? null,
    graderQualified:
      isCertifiedHere(grader) ||
      (grader?.appointments ?? []).some((one) => one.standard === sheet.standard && isIn(one.from, one.to, sheet.day)),
    sponsorCertified: isCertifiedHere(sponsor),
    certifications: requiring
      .filter((certification) => fits(certification.arms, candidateArms))
      .map((certification) => certificationAround(catalogue, dossier, followers, certification, sheet)),
  }
}

/** Whether a certification fits a soldier who carries these arms: it names none, or shares one. */
export function fits(certificationArms: readonly string[], soldierArms: readonly string[]): boolean {
  return certificationArms.length === 0 || certificationArms.some((arm) => soldierArms.includes(arm))
}

function certificationAround(
  { breaks }: JudgingCatalogue,
  dossier: Dossier,
  followers: ReadonlyMap<string, Follower>,
  certification: Certification,
  sheet: AssessedSheet,
): Surroundings['certifications'][number] {
  const progress = followers.get(certification.code)!.before(sheet.day)
  const retest = retestsOf(progress, dossier.reviews, sheet.day).find(({ standard }) => standard === sheet.standard)
  const before =
    termsOn(certification.terms, sheet.day).sequence === 'in-order'
      ? certification.standards.slice(0, certification.standards.indexOf(sheet.standard))
      : []
  const { toward } = statusOf(certification, breaks, progress, [], sheet.day)
  return {
    code: certification.code,
    retest: retest ? { earliest: retest.earliest, needsReview: retest.needsReview } : null,
    missingBefore: before.filter((standard) => !toward.some((go) => go.standard === standard)),
  }
}

function versionOf(catalogue: JudgingCatalogue, sheet: AssessedSheet): Pick<Surroundings, 'version' | 'standardArms'> {
  const all = catalogue.versions.filter(({ standard }) => standard === sheet.standard)
  const own = all.find(({ version }) => version === sheet.version)
  if (!own) throw new Error('surroundings: a sheet names a version of its standard that the catalogue lacks')
  const later = all
    .filter((one) => one.published && one.effectiveFrom > own.effectiveFrom)
    .map((one) => one.effectiveFrom)
  return {
    standardArms: own.arms,
    version: { published: own.published, from: own.effectiveFrom, nextFrom: later.sort()[0] ?? null },
  }
}

const isIn = (from: string, through: string | null, day: string): boolean =>
  from <= day && (through === null || day <= through)
