import type { z } from 'zod'
import { StandardBody } from '../standards/standards.ts'
import { formatIssue } from './format-issue.ts'
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
import { salvage } from './salvage.ts'

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

/** A thing as its kind wants it; or what can be read of it, with all that is wrong in words and the fields it is in. */
export type ParsedItem =
  | { readonly item: unknown }
  | { readonly part: unknown; readonly wrong: readonly string[]; readonly unread: ReadonlySet<string> }

/**
 * Checks a thing of a file by what things of its kind look like, whatever file it comes from. `titleOf`: what a field is
 * called; `known`: fields of which it is said already why they cannot be read.
 */
export function parseImportItem(
  kind: ImportKind,
  value: unknown,
  titleOf: (field: string) => string = (field) => field,
  known: ReadonlySet<string> = new Set(),
): ParsedItem {
  const parsed = SCHEMAS[kind].safeParse(value)
  if (parsed.success) return { item: parsed.data }
  const { issues } = parsed.error
  const wrong = issues.filter(({ path }) => !known.has(String(path[0]))).map((issue) => formatIssue(issue, titleOf))
  const unread = new Set(issues.map(({ path }) => String(path[0])))
  return { part: salvage(SCHEMAS[kind], value), wrong: [...new Set(wrong)], unread }
}
