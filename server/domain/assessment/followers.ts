import { isConsidered } from '../certification/events.ts'
import { compareSheets } from '../certification/sheet-order.ts'
import { type Follower, followCertification } from './follow-certification.ts'
import { isAttempt, toAttempt } from './to-attempt.ts'
import type { Dossier, JudgingCatalogue } from './types.ts'

/** Followers of a soldier in every certification, by code, before any sheet. */
export function followersOf({ certifications, breaks }: JudgingCatalogue, dossier: Dossier): Map<string, Follower> {
  return new Map(
    certifications.map((certification) => {
      const awards = dossier.awards.get(certification.code) ?? []
      const withdrawals = dossier.withdrawals.get(certification.code) ?? []
      return [certification.code, followCertification(certification, breaks, { awards, withdrawals })]
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
