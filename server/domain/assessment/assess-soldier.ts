import { isConsidered } from '../certification/events.ts'
import { compareSheets } from '../certification/sheet-order.ts'
import { certificationSpans } from '../certification/spans.ts'
import type { Attempt, Certification } from '../certification/types.ts'
import { earnedAwards, walk } from '../certification/walk.ts'
import { judgeSheet } from '../validity/judge-sheet.ts'
import type { Follower } from './follow-certification.ts'
import { followKinds } from './follow-kinds.ts'
import { followersOf } from './followers.ts'
import { judgement } from './judgement.ts'
import { overlappingSheets } from './overlapping.ts'
import { surroundings } from './surroundings.ts'
import { isAttempt, toAttempt } from './to-attempt.ts'
import type {
  AssessedSheet,
  CertificationAssessment,
  Dossier,
  JudgingCatalogue,
  Qualification,
  SheetAssessment,
  SoldierAssessment,
} from './types.ts'

/**
 * Judges all sheets of a soldier in order and works out how the soldier stands in every certification on every day.
 *
 * In: the catalogue, the soldier's dossier, and what qualifies the graders and sponsors on the sheets (by person).
 * Out: how each sheet stands, and status, retests and earned awards by certification. The order in which the sheets
 * arrived matters only through the state they were left in.
 */
export function assessSoldier(
  catalogue: JudgingCatalogue,
  dossier: Dossier,
  people: ReadonlyMap<string, Qualification>,
): SoldierAssessment {
  const followers = followersOf(catalogue, dossier)
  const overlaps = overlappingSheets(dossier.sheets.filter(({ state }) => state !== 'rejected'))
  const kinds = followKinds(catalogue, dossier)
  const counted: Attempt[] = []
  const sheets = [...dossier.sheets].sort(compareSheets).map((sheet): SheetAssessment => {
    const judged = judgement(sheet, judgeSheet(sheet, surroundings(catalogue, dossier, people, followers, sheet)))
    const attempts = isAttempt(sheet) && judged.state !== 'rejected' ? attemptsOf(catalogue, followers, sheet) : []
    const counts = isAttempt(sheet) && judged.state === 'counted'
    const kind = counts ? kinds.next(sheet.standard, sheet.day) : null
    if (counts) {
      const attempt = toAttempt(sheet)
      counted.push(attempt)
      const awarding = catalogue.certifications.filter(
        (one) => isConsidered(one, attempt) && followers.get(one.code)!.add(attempt),
      )
      kinds.add(attempt, awarding)
    }
    return {
      id: sheet.id,
      ...judged,
      overlaps: overlaps.has(sheet.id),
      attempts,
      kind,
      unitId: dossier.periods.find((period) => holds(period, sheet.day))?.unitId ?? null,
    }
  })
  const certifications = catalogue.certifications.map((one) => assessCertification(catalogue, dossier, one, counted))
  return { sheets, certifications }
}

function attemptsOf(
  catalogue: JudgingCatalogue,
  followers: ReadonlyMap<string, Follower>,
  sheet: AssessedSheet,
): SheetAssessment['attempts'] {
  return catalogue.certifications
    .filter((certification) => isConsidered(certification, sheet))
    .map(({ code }) => ({
      certification: code,
      number: followers.get(code)!.attemptNumber(sheet.standard, sheet.day),
    }))
}

function assessCertification(
  { breaks }: JudgingCatalogue,
  dossier: Dossier,
  certification: Certification,
  attempts: readonly Attempt[],
): CertificationAssessment {
  const history = {
    attempts,
    awards: dossier.awards.get(certification.code) ?? [],
    withdrawals: dossier.withdrawals.get(certification.code) ?? [],
    suspensions: dossier.suspensions.get(certification.code) ?? [],
    reviews: dossier.reviews,
  }
  const steps = walk(certification, breaks, history)
  return {
    certification: certification.code,
    ...certificationSpans(certification, breaks, history, steps),
    earned: earnedAwards(steps).map(({ awardedOn, validThrough, madeBy }) => ({
      sheetId: madeBy!.id,
      awardedOn,
      validThrough,
      finishedAt: madeBy!.finishedAt,
    })),
  }
}

const holds = (period: { from: string; through: string | null }, day: string): boolean =>
  period.from <= day && (period.through === null || day <= period.through)
