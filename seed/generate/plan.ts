import type { CeremonyBody } from '../../server/contract/ceremonies.ts'
import type { CertificationBody } from '../../server/contract/certifications.ts'
import type {
  AppointmentBody,
  AwardBody,
  LiftBody,
  ReviewBody,
  SponsorshipBody,
  SuspensionBody,
  WithdrawalBody,
} from '../../server/contract/people.ts'
import type { SheetAmendment, SheetBody, SheetDecisionBody } from '../../server/contract/sheets.ts'
import type { StandardBody } from '../../server/contract/standards.ts'
import type { PlainDate } from '../../server/domain/calendar/plain-date.ts'
import type { PlannedUnit } from './establishment.ts'
import type { PlannedSoldier } from './people.ts'

/**
 * Something that was entered into the record: when, and about whom. In the bodies people are named by roster number,
 * test days by their date and units by key, since nothing has an id before it is loaded.
 */
export type PlannedEvent = {
  /** Milliseconds since 1970. */
  readonly at: number
  readonly soldier: string
} & (
  | { readonly kind: 'award'; readonly body: AwardBody }
  | { readonly kind: 'sponsorship'; readonly body: SponsorshipBody }
  | { readonly kind: 'appointment'; readonly body: AppointmentBody }
  | { readonly kind: 'review'; readonly body: ReviewBody }
  | { readonly kind: 'withdrawal'; readonly body: WithdrawalBody }
  | { readonly kind: 'suspension'; readonly key: string; readonly body: SuspensionBody }
  | { readonly kind: 'lift'; readonly key: string; readonly body: LiftBody }
  | PlannedSheet
  | { readonly kind: 'decision'; readonly id: string; readonly body: SheetDecisionBody }
  | { readonly kind: 'amendment'; readonly id: string; readonly body: SheetAmendment }
)

export interface PlannedSheet {
  readonly kind: 'sheet'
  readonly id: string
  readonly body: SheetBody
  /** What the clock of the device showed when it was sent, milliseconds since 1970. */
  readonly deviceTime: number
  /** How the sheet is meant to stand once everything is loaded. */
  readonly stands: 'counted' | 'held' | 'rejected'
}

export interface PlannedStandard {
  readonly body: StandardBody
  /** Milliseconds since 1970. */
  readonly publishedAt: number
}

export interface PlannedTestDay {
  readonly on: PlainDate
  readonly unitKey: string
  readonly place: string
}

/** A demo account and whom it belongs to. */
export interface PlannedAccount {
  readonly name: string
  readonly role: string
  readonly soldier: string | null
  readonly unitKey: string | null
}

/** Everything the demo holds, before any of it is loaded. Events are in order of `at`. */
export interface Scenario {
  readonly units: readonly PlannedUnit[]
  readonly soldiers: readonly PlannedSoldier[]
  readonly standards: readonly PlannedStandard[]
  readonly certifications: readonly CertificationBody[]
  readonly testDays: readonly PlannedTestDay[]
  readonly events: readonly PlannedEvent[]
  readonly ceremonies: readonly CeremonyBody[]
  readonly accounts: readonly PlannedAccount[]
}
