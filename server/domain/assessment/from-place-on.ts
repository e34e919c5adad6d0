import { addDays, type PlainDate } from '../calendar/plain-date.ts'
import type { CertificationAssessment, KnownBefore } from './types.ts'

/** Of how somebody stands what lies at a place or behind it: spans that reach the day before or a later one, and later sheets' awards. */
export function fromPlaceOn(
  { day, attempts }: KnownBefore,
  { certification, statuses, retests, earned }: CertificationAssessment,
): CertificationAssessment {
  const before = new Set(attempts.map(({ id }) => id))
  const reachesIt = reaches(addDays(day, -1))
  return {
    certification,
    statuses: statuses.filter(reachesIt),
    retests: retests.filter(reachesIt),
    earned: earned.filter(({ sheetId }) => !before.has(sheetId)),
  }
}

const reaches =
  (day: PlainDate) =>
  ({ through }: { readonly through: PlainDate | null }): boolean =>
    through === null || through >= day
