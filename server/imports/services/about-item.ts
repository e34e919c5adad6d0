import type {
  AppointmentItem,
  AwardItem,
  CeremonyItem,
  ResultItem,
  RosterItem,
  SheetItem,
  SponsorshipItem,
} from '../../contract/imports/import-items.ts'
import type { ImportKind } from '../../contract/imports/imports.ts'
import type { Part } from '../../contract/imports/salvage.ts'
import type { StandardBody } from '../../contract/standards/standards.ts'

/** The pieces that name a thing, with the words between; undefined where a piece cannot be read. */
type Naming<Item> = (item: Part<Item>) => readonly (string | number | undefined)[]

const roster: Naming<RosterItem> = ({ rosterNumber, familyName, givenName }) => {
  const name = [familyName, givenName].filter(Boolean).join(', ')
  return [rosterNumber, name === '' ? '' : ` ${name}`]
}
const awards: Naming<AwardItem> = (award) => [award.rosterNumber, ' ', award.certification, ', ', award.awardedOn]
const results: Naming<ResultItem> = (result) => [result.candidate, ' ', result.standard, ', ', result.on]
const sheets: Naming<SheetItem> = (sheet) => [
  sheet.candidate,
  ' ',
  sheet.standard,
  ', ',
  sheet.finishedAt?.slice(0, 10),
]
const sponsorships: Naming<SponsorshipItem> = ({ candidate, sponsor, from }) => [
  candidate,
  ', coached by ',
  sponsor,
  ' from ',
  from,
]
const appointments: Naming<AppointmentItem> = ({ rosterNumber, standard, from }) => [
  rosterNumber,
  ', grader of ',
  standard,
  ' from ',
  from,
]
const standards: Naming<StandardBody> = ({ code, version }) => [code, ', version ', version]
const ceremonies: Naming<CeremonyItem> = ({ title, startsAt }) => [title, ', ', startsAt?.slice(0, 10)]

const NAMINGS = { roster, awards, results, sponsorships, appointments, sheets, standards, ceremonies }

/** What rows are about, in words; the numbers of the rows where that cannot be read. */
export function aboutItem(kind: ImportKind, item: unknown, rows: readonly number[]): string {
  const pieces = (NAMINGS[kind] as Naming<unknown>)(item as never)
  if (pieces.every((piece) => piece !== undefined)) return pieces.join('')
  return rows.length === 1 ? `Row ${rows[0]}` : `Rows ${rows[0]}–${rows.at(-1)}`
}
