import type { Interval } from '../interval.ts'
import type { AgreementBand } from './agreement-band.ts'

/**
 * A chance-corrected coefficient of agreement, 1 being perfect, 0 what chance gives, or why there is none. `observed`
 * and `byChance` are the shares of agreement it compares. `interval` is null when the standard error is 0 (no
 * disagreement seen, say) or cannot be had: such an interval would claim certainty. `errorIfChance` is the standard
 * error if there were only chance agreement, for a test against 0; null where no formula applies.
 */
export type Agreement =
  | { kind: 'undefined'; reason: 'no-data' | 'one-category' }
  | {
      kind: 'agreement'
      value: number
      observed: number
      byChance: number
      subjects: number
      standardError: number | null
      errorIfChance: number | null
      interval: Interval | null
      level: number
      band: AgreementBand
    }
