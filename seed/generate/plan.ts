import type { CeremonyBody } from '../../server/contract/ceremonies/ceremonies.ts'
import type { CoachingNoteBody } from '../../server/contract/coaching/coaching-notes.ts'
import type { AmendmentDecisionBody } from '../../server/contract/sheets/amendments.ts'
import type { SheetAmendment, SheetBody, SheetDecisionBody } from '../../server/contract/sheets/sheets.ts'
import type { AbsenceBody } from '../../server/contract/soldiers/absences.ts'
import type {
  AppointmentBody,
  AwardBody,
  LiftBody,
  ReviewBody,
  SoldierBody,
  SoldierChangeBody,
  SponsorshipBody,
  SuspensionBody,
  WithdrawalBody,
} from '../../server/contract/soldiers/soldiers.ts'
import type { CertificationBody } from '../../server/contract/standards/certifications.ts'
import type { StandardBody } from '../../server/contract/standards/standards.ts'
import type { TestDayBody } from '../../server/contract/test-days/test-days.ts'
import type { Role } from '../../server/domain/access/actor.ts'
import type { PlannedUnit } from './establishment.ts'

/**
 * Something that was entered into the record, and when. In the bodies people are named by roster number, test days by
 * their date and units by key, since nothing has an id before it is loaded.
 */
export type PlannedEvent = {
  /** Milliseconds since 1970. */
  readonly at: number
} & (
  | { readonly kind: 'test-day'; readonly body: TestDayBody }
  | { readonly kind: 'ceremony'; readonly body: CeremonyBody }
  | { readonly kind: 'standard'; readonly body: StandardBody }
  | { readonly kind: 'draft'; readonly body: StandardBody }
  | { readonly kind: 'certification'; readonly body: CertificationBody }
  | { readonly kind: 'soldier'; readonly body: SoldierBody }
  | EventAboutSoldier
  | PlannedSheet
  | { readonly kind: 'decision'; readonly id: string; readonly body: SheetDecisionBody }
  | { readonly kind: 'amendment'; readonly id: string; readonly body: SheetAmendment }
  | { readonly kind: 'confirmation'; readonly id: string; readonly body: AmendmentDecisionBody }
)

type EventAboutSoldier = { readonly soldier: string } & (
  | { readonly kind: 'change'; readonly body: SoldierChangeBody }
  | { readonly kind: 'award'; readonly body: AwardBody }
  | { readonly kind: 'sponsorship'; readonly body: SponsorshipBody }
  | { readonly kind: 'appointment'; readonly body: AppointmentBody }
  | { readonly kind: 'review'; readonly body: ReviewBody }
  | { readonly kind: 'withdrawal'; readonly body: WithdrawalBody }
  | { readonly kind: 'suspension'; readonly key: string; readonly body: SuspensionBody }
  | { readonly kind: 'lift'; readonly key: string; readonly body: LiftBody }
  | { readonly kind: 'absence'; readonly body: AbsenceBody }
  | { readonly kind: 'height'; readonly heightCm: number }
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

/** A demo account and whom it belongs to. */
export interface PlannedAccount {
  readonly name: string
  readonly role: Role
  readonly soldier: string | null
  readonly unitKey: string | null
}

/** What the sponsor with a demo account wrote down, and when; people by roster number. */
export interface PlannedNote {
  /** Milliseconds since 1970. */
  readonly at: number
  readonly candidate: string
  readonly body: CoachingNoteBody
}

/** Everything the demo holds, before any of it is loaded. Events are in order of `at`, the first when all begins. */
export interface Scenario {
  readonly units: readonly PlannedUnit[]
  readonly events: readonly PlannedEvent[]
  readonly accounts: readonly PlannedAccount[]
  readonly notes: readonly PlannedNote[]
}
