import { isConsidered } from '../certification/events.ts'
import { compareSheets } from '../certification/sheet-order.ts'
import type { AwardHistory } from '../certification/types.ts'
import { type Follower, followCertification } from './follow-certification.ts'
import { isAttempt, toAttempt } from './to-attempt.ts'
import type { Dossier, JudgingCatalogue } from './types.ts'

/** Followers of a soldier in every certification, by code, before any sheet. */
export function followersOf({ certifications, breaks }: JudgingCatalogue, dossier: Dossier): Map<string, Follower> {
  return new Map(
    certifications.map((certification) => {
      return [certification.code, followCertification(certification, breaks, awardFacts(dossier, certification.code))]
    }),
  )
}

/** The same after all sheets of the dossier that count: how a test that is yet to come will find the soldier. */
export function followersAfterAll(catalogue: JudgingCatalogue, dossier: Dossier): Map<string, Follower> {
  const followers = followersOf(catalogue, dossier)
  const counted = dossier.sheets.filter((sheet) => sheet.state === 'counted' && isAttempt(sheet)).sort(compareSheets)
  for (const sheet of counted) {
    const attempt = toAttempt(sheet)
    for (const certification of catalogue.certifications) {
      if (isConsidered(certification, attempt)) followers.get(certification.code)!.add(attempt)
    }
  }
  return followers
}

/** What of a dossier makes awards in a certification, beside its sheets. */
export const awardFacts = (dossier: Dossier, certification: string): Omit<AwardHistory, 'attempts'> => ({
  awards: dossier.awards.get(certification) ?? [],
  withdrawals: dossier.withdrawals.get(certification) ?? [],
  decisions: dossier.decisions?.get(certification) ?? [],
  extensions: dossier.extensions?.get(certification) ?? [],
})
