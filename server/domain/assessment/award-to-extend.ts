import type { PlainDate } from '../calendar/plain-date.ts'
import { awardsOn } from '../certification/progress.ts'
import { progressOn } from '../certification/status.ts'
import { termsOn } from '../certification/terms-on.ts'
import type { Break, Certification } from '../certification/types.ts'
import { awardFacts } from './followers.ts'
import { isAttempt, toAttempt } from './to-attempt.ts'
import type { Dossier } from './types.ts'

interface AwardToExtend {
  /** Of the sheet, or of the carried-over award. */
  readonly award: string
  readonly isCarried: boolean
  readonly awardedOn: PlainDate
  readonly validThrough: PlainDate
  /** By so many days it may be extended still. */
  readonly daysLeft: number
}

/**
 * The award that an extension of a day is about: the one in force that day, else the one that waits. Null where neither is, or
 * its last day is over.
 */
export function awardToExtend(
  certification: Certification,
  breaks: readonly Break[],
  dossier: Dossier,
  day: PlainDate,
): AwardToExtend | null {
  const facts = awardFacts(dossier, certification.code)
  const attempts = dossier.sheets.filter((sheet) => sheet.state === 'counted' && isAttempt(sheet)).map(toAttempt)
  const { latest, waiting } = awardsOn(progressOn(certification, breaks, { ...facts, attempts }, day), day)
  const found = [latest, waiting].find((award) => award !== null && day <= award.validThrough)
  if (!found) return null
  const { awardedOn, validThrough, madeBy } = found
  // Of those carried over on one day the last entered is the one in force.
  const carried = facts.awards.filter((one) => one.awardedOn === awardedOn).sort((a, b) => b.entry - a.entry)[0]
  const award = madeBy?.id ?? carried!.id!
  const used = (facts.extensions ?? []).reduce((sum, one) => (one.award === award ? sum + one.days : sum), 0)
  const { extensionDays = 0 } = termsOn(certification.terms, awardedOn)
  return { award, isCarried: madeBy === null, awardedOn, validThrough, daysLeft: Math.max(0, extensionDays - used) }
}
