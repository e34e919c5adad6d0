import type { Follower } from '../assessment/follow-certification.ts'
import { fits } from '../assessment/surroundings.ts'
import { addDays, type PlainDate } from '../calendar/plain-date.ts'
import { statusOf } from '../certification/status.ts'
import { termsOn } from '../certification/terms-on.ts'
import type { Certification } from '../certification/types.ts'
import type { Prospect } from './types.ts'

type Asked = Pick<Prospect, 'catalogue' | 'standard' | 'dossier'>

/**
 * Why a test on a day would be for nothing: since which day the candidate has what it could give. In every certification
 * that requires the standard and fits the candidate no retest is open, and either a GO in the standard still counts that
 * day, or a certification is in force that was earned less than the days ago for which a GO counts (then it is no renewal
 * yet). Who has every standard and yet no award, because a commander refused it, earns one only by another test. In: what is known of the candidate, who was followed through all sheets that count. Out: a question that can be
 * asked of many days; null: the test is needed, or no certification fits.
 */
export function notNeeded(
  { catalogue, standard, dossier }: Asked,
  followers: ReadonlyMap<string, Follower>,
): (day: PlainDate) => PlainDate | null {
  const inSince = (certification: Certification, day: PlainDate): PlainDate | null => {
    const progress = followers.get(certification.code)!.before(day)
    if (progress.retests.has(standard)) return null
    const { award } = progress
    if (award && day <= award.validThrough) {
      const { windowDays } = termsOn(certification.terms, day)
      if (day <= addDays(award.awardedOn, windowDays)) return award.awardedOn
    }
    const { toward } = statusOf(certification, catalogue.breaks, progress, [], day)
    const lacksOnlyAnAward = certification.standards.every((code) => toward.some((go) => go.standard === code))
    return lacksOnlyAnAward ? null : (toward.find((go) => go.standard === standard)?.on ?? null)
  }

  return (day) => {
    const arms = dossier.periods.find(({ from, through }) => from <= day && (through === null || day <= through))?.arms
    const requiring = catalogue.certifications.filter(
      (one) => one.standards.includes(standard) && fits(one.arms, arms ?? []),
    )
    const since = requiring.map((certification) => inSince(certification, day))
    const days = since.filter((one) => one !== null)
    return days.length < since.length ? null : (days.sort().at(-1) ?? null)
  }
}
