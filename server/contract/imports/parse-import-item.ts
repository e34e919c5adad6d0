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
import { sayIssue } from './say-issue.ts'

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

/**
 * Checks a thing of a file by what things of its kind look like, whatever file it comes from; else says all that is wrong,
 * in words. `titleOf`: what a field is called; `known`: fields of which it is said already why they cannot be read.
 */
export function parseImportItem(
  kind: ImportKind,
  value: unknown,
  titleOf: (field: string) => string = (field) => field,
  known: ReadonlySet<string> = new Set(),
): { readonly item: unknown } | { readonly wrong: readonly string[] } {
  const parsed = SCHEMAS[kind].safeParse(value)
  if (parsed.success) return { item: parsed.data }
  const wrong = parsed.error.issues
    .filter(({ path }) => !known.has(String(path[0])))
    .map((issue) => sayIssue(issue, titleOf))
  return { wrong: [...new Set(wrong)] }
}
