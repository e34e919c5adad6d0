import type { GainKind } from '../ability/attempt-kind.ts'
import type { PlainDate } from '../calendar/plain-date.ts'
import type { Span, SpannedRetest, StandingSpans } from '../certification/spans.ts'
import type {
  Attempt,
  AwardDecision,
  Break,
  CarriedAward,
  Certification,
  CertificationStatus,
  Extension,
  Review,
  Suspension,
} from '../certification/types.ts'
import type { SheetFacts } from '../validity/judge-sheet.ts'
import type { Violation } from '../validity/rules.ts'

/** Standards and certifications, as far as judging a sheet needs them. */
export interface JudgingCatalogue {
  readonly certifications: readonly Certification[]
  readonly versions: readonly {
    readonly standard: string
    readonly version: number
    readonly arms: readonly string[]
    readonly published: boolean
    readonly effectiveFrom: PlainDate
  }[]
  readonly breaks: readonly Break[]
}

/** A sheet of the soldier with what is known of how it was judged before. */
export interface AssessedSheet extends SheetFacts {
  readonly id: string
  readonly standard: string
  readonly version: number
  readonly secondOf: string | null
  /** Milliseconds since 1970. */
  readonly startedAt: number
  readonly outcome: 'GO' | 'NO-GO' | 'VOID'
  /** `new`: just arrived or amended, to be judged for the first time with this content. */
  readonly state: 'new' | 'counted' | 'held' | 'rejected'
  readonly violations: readonly Violation[]
  readonly waived: readonly string[]
  readonly tolerated: readonly string[]
}

/** Everything about one soldier that the judgement of their sheets and their status depend on. */
export interface Dossier {
  readonly sheets: readonly AssessedSheet[]
  readonly periods: readonly {
    readonly from: PlainDate
    readonly through: PlainDate | null
    readonly unitId: string
    readonly arms: readonly string[]
  }[]
  readonly sponsorships: readonly {
    readonly sponsorId: string
    readonly from: PlainDate
    readonly to: PlainDate | null
  }[]
  readonly reviews: readonly Review[]
  /** By certification code. */
  readonly awards: ReadonlyMap<string, readonly CarriedAward[]>
  readonly withdrawals: ReadonlyMap<string, readonly PlainDate[]>
  readonly suspensions: ReadonlyMap<string, readonly Suspension[]>
  /** Left out: none, as with extensions. */
  readonly decisions?: ReadonlyMap<string, readonly AwardDecision[]>
  readonly extensions?: ReadonlyMap<string, readonly Extension[]>
}

/**
 * What stands as it did, whatever becomes of the sheets from a place on: sheets that finished before an instant, and how the
 * soldier stood before a day, on which or after which all other sheets lie. The instant is so early that none of the former
 * overlaps one of the latter that was not known of.
 */
export interface KnownBefore {
  readonly day: PlainDate
  /** The attempts that count among the sheets before. */
  readonly attempts: readonly Attempt[]
  /** The sheets from there on that overlap another as it is. */
  readonly overlapping: ReadonlySet<string>
  /** By certification code; of the spans, those that reach the day before `day` or a later one. */
  readonly standings: ReadonlyMap<string, StandingSpans>
}

/** What makes another person able to grade or to sponsor. */
export interface Qualification {
  readonly awards: readonly {
    readonly certification: string
    readonly awardedOn: PlainDate
    readonly validThrough: PlainDate
    /** Null: it waits for a commander. Left out: from the day it was awarded. */
    readonly inForceFrom?: PlainDate | null
    /** The sheet that made it; null for one carried over. */
    readonly madeBy: { readonly id: string; readonly finishedAt: number } | null
    /** Orders carried-over awards of one day. */
    readonly entry: number
  }[]
  readonly suspensions: readonly (Suspension & { readonly certification: string })[]
  readonly appointments: readonly {
    readonly standard: string
    readonly from: PlainDate
    readonly to: PlainDate | null
  }[]
}

/** How one sheet stands after the assessment. */
export interface SheetAssessment {
  readonly id: string
  readonly state: 'counted' | 'held' | 'rejected'
  readonly violations: readonly Violation[]
  readonly tolerated: readonly string[]
  readonly overlaps: boolean
  readonly attempts: readonly { readonly certification: string; readonly number: number }[]
  /** What kind of attempt at the standard the sheet is, once it counts as one. */
  readonly kind: GainKind | null
  /** The candidate's unit on the day of the sheet. */
  readonly unitId: string | null
}

export interface EarnedAward {
  readonly sheetId: string
  readonly awardedOn: PlainDate
  readonly validThrough: PlainDate
  /** Null: it waits for a commander. */
  readonly inForceFrom: PlainDate | null
  readonly finishedAt: number
}

/** How one soldier stands in one certification over all days. */
export interface CertificationAssessment {
  readonly certification: string
  readonly statuses: readonly Span<CertificationStatus>[]
  readonly retests: readonly Span<SpannedRetest>[]
  readonly earned: readonly EarnedAward[]
}

export interface SoldierAssessment {
  readonly sheets: readonly SheetAssessment[]
  readonly certifications: readonly CertificationAssessment[]
}

/** A sheet that came to stand otherwise, as it stood before. */
export interface StoodBefore {
  readonly id: string
  readonly revision: number
  readonly state: string
  readonly tolerated: readonly string[]
}
