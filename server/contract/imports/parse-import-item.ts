import type { z } from 'zod'
import { StandardBody } from '../standards/standards.ts'
import {
  AppointmentItem,
  AwardItem,
  CeremonyItem,
  ResultItem,
  RosterItem,
  SheetItem,
  SponsorshipItem,
} from './import-items.ts'
import type { ImportKind } from './imports.ts'

const SCHEMAS: Readonly<Record<ImportKind, z.ZodType>> = {
  roster: RosterItem,
  awards: AwardItem,
  results: ResultItem,
  sponsorships: SponsorshipItem,
  appointments: AppointmentItem,
  sheets: SheetItem,
  standards: StandardBody,
  ceremonies: CeremonyItem,
}

/** Checks a thing of a file by what things of its kind look like, whatever file it comes from; else says what is wrong. */
export function parseImportItem(
  kind: ImportKind,
  value: unknown,
): { readonly item: unknown } | { readonly wrong: readonly string[] } {
  const parsed = SCHEMAS[kind].safeParse(value)
  if (parsed.success) return { item: parsed.data }
  const wrong = parsed.error.issues.map(({ path, message }) =>
    path.length === 0 ? message : `${path.join('.')}: ${message}`,
  )
  return { wrong: [...new Set(wrong)] }
}
