import { readLineages } from '../../access/db/units.db.ts'
import type { Catalogue } from '../../db/catalogue.db.ts'
import type { Transaction } from '../../db/client.ts'
import type { SheetAssessment } from '../../domain/assessment/types.ts'
import type { Contribution } from '../../domain/tallies/contribution.ts'
import { sheetCounts } from '../../domain/tallies/sheet-counts.ts'
import { spreadContributions } from '../../domain/tallies/spread-contributions.ts'
import { tallyLayout } from '../../domain/tallies/tally-layout.ts'
import { type CountedSheet, readCountedSheets } from '../db/counted-sheets.db.ts'
import type { StoredSheet } from '../db/dossiers.db.ts'
import { addToTallies, takeFromTallies } from '../db/tallies.db.ts'

interface Change {
  readonly before: StoredSheet
  readonly after: Pick<SheetAssessment, 'kind' | 'unitId'>
}

/** Where a sheet stands in the tallies; null: it is in none. */
type Place = Pick<Contribution, 'unitId' | 'kind'> | null

interface Move {
  readonly sheet: StoredSheet
  readonly from: Place
  readonly to: Place
}

/** So many sheets are moved by one statement; more would be more than it should hold in memory. */
const TOGETHER = 2_000

/** What need not be read: contents of sheets, and lineages of units. */
export interface Known {
  readonly contents: ReadonlyMap<string, CountedSheet>
  readonly lineages: ReadonlyMap<string, readonly string[]>
}

const NOTHING: Known = { contents: new Map(), lineages: new Map() }

/** Moves what changed sheets add to the tallies: out of where they were counted, into where they count now. */
export async function settleTallies(
  tx: Transaction,
  catalogue: Catalogue,
  changes: readonly Change[],
  known: Known = NOTHING,
): Promise<void> {
  const moves = changes
    .map(({ before, after }) => ({
      sheet: before,
      from: placeOf(before.talliedKind, before.talliedUnitId),
      to: placeOf(after.kind, after.unitId),
    }))
    .filter(({ from, to }) => from?.unitId !== to?.unitId || from?.kind !== to?.kind)
    // Sheets of one unit and day, which meet in the same tallies, go together.
    .sort((a, b) => compare(tallyKey(a), tallyKey(b)))
  for (let at = 0; at < moves.length; at += TOGETHER) {
    await moveTogether(tx, catalogue, moves.slice(at, at + TOGETHER), known)
  }
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0)

const tallyKey = ({ sheet, from, to }: Move): string => `${(to ?? from)?.unitId} ${sheet.day}`

async function moveTogether(
  tx: Transaction,
  catalogue: Catalogue,
  moves: readonly Move[],
  known: Known,
): Promise<void> {
  const unknown = moves.map(({ sheet }) => sheet.id).filter((id) => !known.contents.has(id))
  const counted = new Map([...known.contents, ...(await readCountedSheets(tx, unknown))])
  const units = moves.flatMap(({ from, to }) => [from?.unitId ?? [], to?.unitId ?? []].flat())
  const unread = units.filter((id) => !known.lineages.has(id))
  const lineages = new Map([...known.lineages, ...(await readLineages(tx, unread))])
  const contributions = (side: 'from' | 'to') =>
    moves.flatMap((move) => {
      const place = move[side]
      return place === null ? [] : [contribution(catalogue, move.sheet, counted.get(move.sheet.id)!, place)]
    })
  await takeFromTallies(tx, spreadContributions(contributions('from'), lineages))
  await addToTallies(tx, spreadContributions(contributions('to'), lineages))
}

/** Takes a sheet out of the tallies as it stands, before its content changes. */
export async function untally(tx: Transaction, catalogue: Catalogue, sheet: StoredSheet): Promise<void> {
  await settleTallies(tx, catalogue, [{ before: sheet, after: { kind: null, unitId: null } }])
}

const placeOf = (kind: SheetAssessment['kind'], unitId: string | null): Place =>
  kind === null ? null : { unitId, kind }

function contribution(
  catalogue: Catalogue,
  sheet: StoredSheet,
  { score, majors, minors }: CountedSheet,
  place: NonNullable<Place>,
): Contribution {
  const { day, arm, sponsorId, graderId } = sheet
  const version = catalogue.standards.get(sheet.standard)!.find((one) => one.version === sheet.version)!
  if (score.ending === 'unfinished' || score.ending === 'void') throw new Error('settleTallies: not an attempt')
  return {
    ...place,
    versionId: version.id,
    day,
    arm,
    sponsorId,
    graderId,
    passed: score.outcome === 'GO',
    ending: score.ending,
    counts: sheetCounts(tallyLayout(version.definition), score, { majors, minors }),
  }
}
