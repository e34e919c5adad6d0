import { scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import { fromCursor, toPage } from '../../context/cursor.ts'
import type { SheetDetail, SheetSummary } from '../../contract/sheets/sheets.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { notFound } from '../../errors.ts'
import { listAppeals } from '../db/appeals.db.ts'
import { hasArrivedLate, listSheets, readSheetHistory, type SheetFilter, type SheetRow } from '../db/sheet-reads.db.ts'
import { appealableUntil } from './appeals/appealable-until.ts'
import { toResult } from './stored-sheet.ts'

/** More are never made: each waits for the one before to be decided. */
const MOST_APPEALS = 50

/** Who stands behind a revision or decision that no account made. */
const BY_ITSELF = 'Reviewstand'

/** Sheets, latest first: of a soldier, or of a state. */
export async function findSheets(
  context: Context,
  actor: Actor,
  query: SheetFilter & { limit: number; after?: string | undefined },
): Promise<{ items: SheetSummary[]; next: string | null }> {
  const key = fromCursor(query.after, ['number', 'uuid'])
  const after = key && { finishedAtMs: Number(key[0]), id: String(key[1]) }
  const rows = await listSheets(context.db, await scopeFor(context, actor), query, { limit: query.limit + 1, after })
  return toPage(rows, query.limit, ({ finishedAtMs, id }) => [finishedAtMs, id], toSummary)
}

function toSummary(row: SheetRow): SheetSummary {
  const { id, state, day, revision, body, people, violations } = row
  const result = toResult(row.score, row.attempts)
  return {
    id,
    state,
    day,
    receivedAt: row.receivedAt.toISOString(),
    revision,
    flags: flags(row),
    result,
    violations,
    body,
    people,
  }
}

/** What is remarkable about a sheet that counts: rules that turned out to be broken, and an overlap. */
const flags = ({ state, tolerated, overlaps }: SheetRow): string[] => [
  ...(state === 'counted' ? tolerated : []),
  ...(overlaps ? ['overlap'] : []),
]

/** One sheet with every revision and decision. */
export async function getSheet(context: Context, actor: Actor, id: string): Promise<SheetDetail> {
  const scope = await scopeFor(context, actor)
  const history = await readSheetHistory(context.db, scope, id)
  if (!history) throw notFound('sheet')
  const { sheet, revisions, decisions } = history
  const appeals = await listAppeals(context.db, scope, { sheetId: id }, { limit: MOST_APPEALS, after: null })
  return {
    ...sheet.body,
    id,
    state: sheet.state,
    day: sheet.day,
    receivedAt: sheet.receivedAt.toISOString(),
    arrivedLate: await hasArrivedLate(context.db, id),
    appealableUntil: appealableUntil(context, sheet.revisedAt).toISOString(),
    result: toResult(sheet.score, sheet.attempts),
    violations: sheet.violations,
    flags: flags(sheet),
    waived: sheet.waived,
    people: sheet.people,
    appeals,
    revisions: revisions.map(({ score, by, toleratedBefore: _, ...revision }) => ({
      ...revision,
      by: by ?? BY_ITSELF,
      result: toResult(score, revision.number === sheet.revision ? sheet.attempts : []),
    })),
    decisions: decisions.map(({ by, revision: _, ...decision }) => ({ ...decision, by: by ?? BY_ITSELF })),
  }
}
