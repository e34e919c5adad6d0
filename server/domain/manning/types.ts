import type { PlainDate } from '../calendar/plain-date.ts'
import type { StatusWord } from '../certification/types.ts'

/** From an instant up to another, in milliseconds since 1970. */
export interface Span {
  readonly from: number
  readonly to: number
}

/** When somebody named to a ceremony is on duty for it: at a time, on calendar days of the unit. */
export interface DutyTime extends Span {
  readonly at: 'ceremony' | 'rehearsal'
  readonly day: PlainDate
}

/** What a post asks of who stands there. */
export interface PostNeed {
  readonly arm: string | null
  /** Null: any. */
  readonly grades: readonly string[] | null
  /** Both ends of the band are within it; null: no limit. */
  readonly minHeightCm: number | null
  readonly maxHeightCm: number | null
}

export interface OtherDuty extends Span {
  readonly kind: 'ceremony' | 'rehearsal' | 'alternate' | 'test' | 'grading'
  /** Null: of a unit that whoever asks may not see. */
  readonly title: string | null
}

/** What is known of a soldier for the day of a ceremony and one certification. */
export interface SoldierFacts {
  /** Null: not in the strength that day. */
  readonly grade: string | null
  readonly arms: readonly string[]
  /** Null: not known. */
  readonly heightCm: number | null
  readonly status: StatusWord
  readonly validThrough: PlainDate | null
  /** Required standards that are not in that day. */
  readonly missing: readonly string[]
  /** End of the test of that very day without which the soldier would not be certified; null: certified before it. */
  readonly certifiedAt: number | null
  /** Absences around that time; days inclusive, through null: until further notice. */
  readonly absences: readonly {
    readonly kind: string
    readonly from: PlainDate
    readonly through: PlainDate | null
  }[]
  /** Duties around that time beside this ceremony. */
  readonly duties: readonly OtherDuty[]
}

/** One reason why a soldier may not stand at a post, with what is behind it. */
export type WhyNot =
  | { readonly reason: 'not in strength' | 'suspended' | 'wrong arm' | 'wrong grade' | 'height not known' }
  | {
      readonly reason: 'not certified'
      readonly status: StatusWord
      readonly missing: string[]
      readonly validThrough: PlainDate | null
    }
  | { readonly reason: 'test ends too late'; readonly finishedAt: string }
  | { readonly reason: 'outside the height band'; readonly heightCm: number }
  | {
      readonly reason: 'absent'
      readonly kind: string
      readonly from: PlainDate
      readonly through: PlainDate | null
      readonly at: DutyTime['at']
    }
  | {
      readonly reason: 'other duty'
      readonly kind: OtherDuty['kind']
      readonly title: string | null
      readonly startsAt: string
      readonly endsAt: string
    }
