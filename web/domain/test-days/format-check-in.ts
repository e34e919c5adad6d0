import type { Conditions } from '#contract/sheets/sheets.ts'

const MISSING: Record<keyof Conditions, string> = {
  uniform: 'uniform not right',
  equipment: 'equipment not serviceable',
  sponsorPresent: 'sponsor not here',
}

/** What a check-in found wanting; a sponsor who is here and not certified that day is wanting, too. */
export const missingAt = (found: Conditions | null, hasCertifiedSponsor: boolean): string[] => {
  const missing = found ? (Object.keys(MISSING) as (keyof Conditions)[]).filter((key) => !found[key]) : []
  const words = missing.map((key) => MISSING[key])
  return hasCertifiedSponsor ? words : [...words, 'sponsor not certified that day']
}

/** How a booking stands, in words: "checked in: uniform not right". */
export const formatBookingState = (booking: {
  readonly state: string
  readonly stateReason?: string | null
  readonly checkIn: Conditions | null
}): string => {
  const { state, stateReason, checkIn } = booking
  const missing = state === 'checked in' || state === 'turned away' ? missingAt(checkIn, true) : []
  const more = [stateReason, ...missing].filter(Boolean).join('; ')
  if (more !== '') return `${state}: ${more}`
  return state === 'checked in' && checkIn ? 'checked in, all in order' : state
}

/** Who sponsors, and whether that will do: "sponsor Ashdown, Mirela, not certified that day". */
export const formatSponsor = (sponsor: string | null | undefined, isCertified: boolean): string => {
  if (!sponsor) return 'no sponsor of record'
  return isCertified ? `sponsor ${sponsor}` : `sponsor ${sponsor}, not certified that day`
}
