import type { StatusWord } from '../certification/types.ts'

/** How somebody stands with a ceremony, from best to worst. */
export const OUTLOOK_GROUPS = ['named', 'can stand', 'lapses before', 'could make it', 'cannot'] as const

export type OutlookGroup = (typeof OUTLOOK_GROUPS)[number]

interface Facts {
  /** On the day of the ceremony. */
  readonly status: StatusWord
  readonly statusToday: StatusWord
  /** Named to a post where they may stand, or an alternate who could take one. */
  readonly isNamed: boolean
  /** May stand at some post of the ceremony. */
  readonly canStand: boolean
  /** Tests that would certify them in time, if passed. */
  readonly hasWay: boolean
}

/**
 * The group of one soldier and certification. Who is certified today and not on the day lapses before it, whether or not
 * there is a way to be certified anew; who is certified but kept away by something else cannot.
 */
export function outlookGroup({ status, statusToday, isNamed, canStand, hasWay }: Facts): OutlookGroup {
  if (isNamed) return 'named'
  if (canStand) return 'can stand'
  if (statusToday === 'certified' && status !== 'certified' && status !== 'suspended') return 'lapses before'
  return hasWay ? 'could make it' : 'cannot'
}
