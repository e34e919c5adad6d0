import type { GainKind } from '../ability/attempt-kind.ts'
import type { PlainDate } from '../calendar/plain-date.ts'
import type { TallyCounts } from './sheet-counts.ts'

/** What one counted attempt adds to the tallies of a unit. */
export interface Contribution {
  readonly versionId: string
  /** Null: in no unit that day. */
  readonly unitId: string | null
  readonly day: PlainDate
  readonly arm: string | null
  readonly kind: GainKind
  readonly sponsorId: string | null
  readonly graderId: string
  readonly passed: boolean
  readonly ending: 'completed' | 'stopped' | 'recorded'
  readonly counts: TallyCounts
}
