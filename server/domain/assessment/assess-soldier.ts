import { isConsidered } from '../certification/events.ts'
import { compareSheets } from '../certification/sheet-order.ts'
import { certificationSpans } from '../certification/spans.ts'
import type { Attempt, Certification } from '../certification/types.ts'
import { earnedAwards, type Step } from '../certification/walk.ts'
import { judgeSheet } from '../validity/judge-sheet.ts'
import type { Follower } from './follow-certification.ts'
import { followKinds } from './follow-kinds.ts'
import { awardFacts, followersOf } from './followers.ts'
import { judgement } from './judgement.ts'
import { overlappingSheets } from './overlapping.ts'
import { surroundings } from './surroundings.ts'
import { isAttempt, toAttempt } from './to-attempt.ts'
import type {
  AssessedSheet,
  CertificationAssessment,
  Dossier,
  JudgingCatalogue,
  KnownBefore,
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
 * With what is settled the dossier holds only the sheets from there on. Out then: how those stand, the spans that reach the
 * day before it or a later one, and the awards those sheets earned, all the same as without.
 */
export function assessSoldier(
  catalogue: JudgingCatalogue,
  dossier: Dossier,
  people: ReadonlyMap<string, Qualification>,
  settled?: KnownBefore,
): SoldierAssessment {
  const followers = followersOf(catalogue, dossier)
  const overlaps = overlappingSheets(dossier.sheets.filter(({ state }) => state !== 'rejected'))
  const kinds = followKinds(catalogue, dossier)
  const counted: Attempt[] = []
  const count = (attempt: Attempt) => {
    counted.push(attempt)
    const awarding = catalogue.certifications.filter(
      (one) => isConsidered(one, attempt) && followers.get(one.code)!.add(attempt),
    )
    kinds.add(attempt, awarding)
  }
  for (const attempt of [...(settled?.attempts ?? [])].sort(compareSheets)) count(attempt)
  const sheets = [...dossier.sheets].sort(compareSheets).map((sheet): SheetAssessment => {
    const judged = judgement(sheet, judgeSheet(sheet, surroundings(catalogue, dossier, people, followers, sheet)))
    const attempts = isAttempt(sheet) && judged.state !== 'rejected' ? attemptsOf(catalogue, followers, sheet) : []
    const counts = isAttempt(sheet) && judged.state === 'counted'
    const kind = counts ? kinds.next(sheet.standard, sheet.day) : null
    if (counts) count(toAttempt(sheet))
    return {
      id: sheet.id,
      ...judged,
      overlaps: overlaps.has(sheet.id) || settled?.overlapping.has(sheet.id) === true,
      attempts,
      kind,
      unitId: dossier.periods.find((period) => holds(period, sheet.day))?.unitId ?? null,
    }
  })
  const certifications = catalogue.certifications.map((one) =>
    assessCertification(catalogue, dossier, one, followers.get(one.code)!.steps(), counted, settled),
  )
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
  steps: readonly Step[],
  attempts: readonly Attempt[],
  settled: KnownBefore | undefined,
): CertificationAssessment {
  const history = {
    attempts,
    ...awardFacts(dossier, certification.code),
    suspensions: dossier.suspensions.get(certification.code) ?? [],
    reviews: dossier.reviews,
  }
  const known = settled && {
    ...(settled.standings.get(certification.code) ?? { statuses: [], retests: [] }),
    before: settled.day,
  }
  const settledIds = new Set(settled?.attempts.map(({ id }) => id))
  const earned = earnedAwards(steps).filter(({ madeBy }) => !settledIds.has(madeBy!.id))
  return {
    certification: certification.code,
    ...certificationSpans(certification, breaks, history, steps, known),
    earned: earned.map(({ madeBy, ...award }) => ({
      sheetId: madeBy!.id,
      ...award,
      finishedAt: madeBy!.finishedAt,
    })),
  }
}

const holds = (period: { from: string; through: string | null }, day: string): boolean =>
  period.from <= day && (period.through === null || day <= period.through)
