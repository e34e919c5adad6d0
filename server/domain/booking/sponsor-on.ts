import type { Dossier } from '../assessment/types.ts'
import type { PlainDate } from '../calendar/plain-date.ts'

/** Who sponsors the candidate on a day: of several the one named last; null: nobody. */
export function sponsorOn(sponsorships: Dossier['sponsorships'], day: PlainDate): string | null {
  return (
    sponsorships
      .filter(({ from, to }) => from <= day && (to === null || day <= to))
      .reduce<Dossier['sponsorships'][number] | null>((last, one) => (last && last.from > one.from ? last : one), null)
      ?.sponsorId ?? null
  )
}
