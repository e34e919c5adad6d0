import type {
  AppointmentItem,
  AwardItem,
  CeremonyItem,
  ResultItem,
  SheetItem,
  SponsorshipItem,
} from '../../contract/imports/import-items.ts'
import type { ImportKind } from '../../contract/imports/imports.ts'
import type { Part } from '../../contract/imports/salvage.ts'
import { soldiersByNumber } from '../db/import-people.db.ts'
import { existingTestDays } from '../db/import-sheets.db.ts'
import { findCertification, findVersions, noCertification, noStandard } from './find-named.ts'
import { type Given, nobody, type Run } from './run.ts'
import { type UnitFinder, unitFinder } from './unit-finder.ts'

/** Who and what a row names that must be there already. */
interface Names {
  readonly people?: readonly (string | null | undefined)[]
  readonly certifications?: readonly (string | undefined)[]
  readonly standard?: string | undefined
  readonly version?: number | undefined
  readonly testDay?: string | null | undefined
  readonly unit?: { unit?: string | undefined; unitId?: string | undefined }
}

const ofSheet = (sheet: Part<SheetItem>): Names => ({
  people: [sheet.candidate, sheet.grader, sheet.sponsor, ...(sheet.acknowledged ?? []).map((one) => one.rosterNumber)],
  standard: sheet.standard,
  version: sheet.standardVersion,
  testDay: sheet.testDayId,
})

/** By kind; the roster brings its own people and units, a standard names nothing of the sort. */
const NAMES: Readonly<Record<ImportKind, (item: never) => Names>> = {
  roster: () => ({}),
  standards: () => ({}),
  awards: (award: Part<AwardItem>) => ({ people: [award.rosterNumber], certifications: [award.certification] }),
  results: (result: Part<ResultItem>) => ofSheet(result),
  sheets: ofSheet,
  sponsorships: ({ candidate, sponsor }: Part<SponsorshipItem>) => ({ people: [candidate, sponsor] }),
  appointments: ({ rosterNumber, standard }: Part<AppointmentItem>) => ({ people: [rosterNumber], standard }),
  ceremonies: ({ unit, unitId, posts = [] }: Part<CeremonyItem>) => ({
    people: posts.map(({ rosterNumber }) => rosterNumber),
    certifications: posts.map(({ certification }) => certification),
    unit: { unit, unitId },
  }),
}

/** Adds to the faults of each thing whatever it names that is not there; what comes after may rely on the rest. */
export async function findUnknown(run: Run, kind: ImportKind, given: readonly Given<never>[]): Promise<Given<never>[]> {
  const named = given.map(({ item }) => NAMES[kind](item))
  const numbers = named.flatMap(({ people = [] }) => people.filter((number) => number != null))
  const there = {
    people: await soldiersByNumber(run.tx, numbers),
    testDays: await existingTestDays(
      run.tx,
      named.flatMap(({ testDay }) => testDay ?? []),
    ),
    units: await unitFinder(run, false),
  }
  const found: Given<never>[] = []
  for (const [index, one] of given.entries()) {
    found.push({ ...one, faults: [...one.faults, ...(await unknownOf(run, named[index]!, one, there))] })
  }
  return found
}

interface There {
  readonly people: ReadonlyMap<string, unknown>
  readonly testDays: ReadonlySet<string>
  readonly units: UnitFinder
}

async function unknownOf(
  { catalogue }: Run,
  { people = [], certifications = [], standard, version, testDay, unit }: Names,
  { unread }: Given<never>,
  there: There,
): Promise<string[]> {
  const wrong = [...new Set(people)]
    .filter((number) => number != null && !there.people.has(number))
    .map((n) => nobody(n!))
  for (const name of new Set(certifications)) {
    if (name !== undefined && !findCertification(catalogue, name)) wrong.push(noCertification(name))
  }
  const versions = standard === undefined ? [] : findVersions(catalogue, standard)
  if (standard !== undefined && versions.length === 0) wrong.push(noStandard(standard))
  if (version !== undefined && versions[0] && !versions.some((one) => one.version === version)) {
    wrong.push(`"${versions[0].code}" has no version ${version}.`)
  }
  if (testDay != null && !there.testDays.has(testDay)) wrong.push('There is no such test day.')
  if (unit && !unread.has('unit') && !unread.has('unitId')) {
    const found = await there.units.find(unit)
    if ('wrong' in found) wrong.push(found.wrong)
  }
  return wrong
}
