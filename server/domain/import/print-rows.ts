import type { MarkedMajor, MarkedMinor } from '../scoring/types.ts'
import type { Column, ImportKind } from './column.ts'
import { joinList } from './list-notation.ts'
import { printFaults, printReadings, printTrials } from './mark-notation.ts'
import { measureKey } from './measure-columns.ts'
import type { StandardToRead } from './sheet-item.ts'
import { standardRecords } from './standard-records.ts'

type Values = Readonly<Record<string, unknown>>

/**
 * The rows of a table that say a thing, one text a column: what `readFields` and `toItems` make the same thing of again.
 * In: the thing in the layout of the API with people by roster number; for sheets its standard.
 */
export function printRows(
  kind: ImportKind,
  item: Values,
  columns: readonly Column[],
  standard: StandardToRead | null,
): string[][] {
  return recordsOf(kind, item, standard).map((record) => columns.map((column) => printCell(column, record[column.key])))
}

function recordsOf(kind: ImportKind, item: Values, standard: StandardToRead | null): Values[] {
  if (kind === 'sheets') return [sheetRecord(item, standard)]
  if (kind === 'standards') return standardRecords(item)
  if (kind === 'ceremonies') return ceremonyRecords(item)
  return [item]
}

function printCell({ type }: Column, value: unknown): string {
  if (value === undefined || value === null) return ''
  if (type === 'codes') return (value as string[]).length === 0 ? 'none' : (value as string[]).join(';')
  if (type === 'list') return joinList(value as string[])
  if (type === 'yes-no') return value ? 'yes' : 'no'
  return String(value)
}

function sheetRecord(
  { conditions, void: ended, pauses, acknowledged, majors, minors, ...head }: Values,
  standard: StandardToRead | null,
): Values {
  const reason = ended as { kind: string; text: string } | null | undefined
  const record: Record<string, unknown> = {
    ...head,
    ...(conditions as Values),
    voidKind: reason?.kind,
    voidText: reason?.text,
    pauses: (pauses as { from: string; to: string | null; note: string }[]).map(
      ({ from, to, note }) => `${from}>${to ?? ''}>${note}`,
    ),
    acknowledged: (acknowledged as { rosterNumber: string; at: string }[]).map(
      ({ rosterNumber, at }) => `${rosterNumber}@${at}`,
    ),
  }
  for (const { code, mark, faults = [], atCall, ...rest } of majors as MarkedMajor[]) {
    record[measureKey(code, '')] = mark
    record[measureKey(code, 'at call')] = atCall
    record[measureKey(code, 'faults')] = faults
    record[measureKey(code, 'note')] = (rest as { note?: string | null }).note
  }
  for (const { code, trials, faults = [], readings = [] } of minors as MarkedMinor[]) {
    const gauges = standard?.minors.find((one) => one.code === code)?.gauges ?? []
    record[measureKey(code, '')] = printTrials(trials)
    record[measureKey(code, 'faults')] = printFaults(faults)
    record[measureKey(code, 'readings')] = printReadings(readings, gauges)
  }
  return record
}

function ceremonyRecords({ place, posts, ...head }: Values): Values[] {
  return (posts as Values[]).map(({ title, ...post }) => ({ ...head, venue: place, ...post, post: title }))
}
