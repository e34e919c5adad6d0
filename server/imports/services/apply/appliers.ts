import type { ImportKind } from '../../../contract/imports/imports.ts'
import type { Effect, Given, Run } from '../run.ts'
import { applyAppointments } from './apply-appointments.ts'
import { applyAwards } from './apply-awards.ts'
import { applyCeremonies } from './apply-ceremonies.ts'
import { applyResults } from './apply-results.ts'
import { applyRoster } from './apply-roster.ts'
import { applySheets } from './apply-sheets.ts'
import { applySponsorships } from './apply-sponsorships.ts'
import { applyStandards } from './apply-standards.ts'

type Apply = (run: Run, given: readonly Given<never>[]) => Promise<Effect>

/** How each kind of thing is taken in; items are checked by the schema of their kind before. */
export const appliers: Readonly<Record<ImportKind, Apply>> = {
  roster: applyRoster,
  awards: applyAwards,
  results: applyResults,
  sponsorships: applySponsorships,
  appointments: applyAppointments,
  sheets: applySheets,
  standards: applyStandards,
  ceremonies: applyCeremonies,
}
