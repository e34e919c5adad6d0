import { createHash } from 'node:crypto'
import type { SheetItem } from '../../contract/imports/import-items.ts'
import type { SheetBody } from '../../contract/sheets/sheets.ts'
import { toMillis } from '../../domain/calendar/to-millis.ts'
import { instantInZone } from '../../domain/calendar/zoned-instant.ts'
import { toUuid } from '../../domain/import/to-uuid.ts'
import { type KnownSoldier, timeZonesOf } from '../db/import-people.db.ts'
import { findVersions, versionOn } from './find-named.ts'
import { type Given, inParts, type Run } from './run.ts'

/** A sheet with people and times as the API has them, under the id that follows from what it is about. */
export interface SoundSheet {
  readonly rows: readonly number[]
  readonly id: string
  readonly about: string
  readonly zone: string
  readonly body: SheetBody
}

const TOGETHER = 2_000

/** Makes bodies of the API of what a file says. */
export async function sheetBodies(
  run: Run,
  given: readonly Given<SheetItem>[],
  soldiers: ReadonlyMap<string, KnownSoldier>,
): Promise<SoundSheet[]> {
  const sheets: SoundSheet[] = []
  await inParts(given, TOGETHER, async (part, done) => {
    run.progress('reading', done, given.length)
    const asked = part.map(({ item: { candidate, finishedAt } }) => ({
      soldierId: soldiers.get(candidate)!.id,
      day: finishedAt.slice(0, 10),
    }))
    const zones = await timeZonesOf(run.tx, asked)
    for (const [index, { rows, about, item }] of part.entries()) {
      const zone = zones[index] ?? run.context.timeZone
      const body = toBody(run, item, soldiers, zone)
      sheets.push({ rows, about, zone, body, id: item.id ?? idOf(item, body) })
    }
  })
  return sheets
}

function toBody(
  { catalogue }: Run,
  item: SheetItem,
  soldiers: ReadonlyMap<string, KnownSoldier>,
  zone: string,
): SheetBody {
  const versions = findVersions(catalogue, item.standard)
  const { code, version } =
    versions.find((one) => one.version === item.standardVersion) ?? versionOn(versions, item.finishedAt.slice(0, 10))!
  const idOfNumber = (number: string) => soldiers.get(number)!.id
  const instant = (moment: string) => toInstant(moment, zone)
  return {
    purpose: item.purpose,
    standard: code,
    standardVersion: version,
    arm: item.arm ?? null,
    candidateId: idOfNumber(item.candidate),
    sponsorId: item.sponsor ? idOfNumber(item.sponsor) : null,
    graderId: idOfNumber(item.grader),
    testDayId: item.testDayId ?? null,
    secondOf: item.secondOf ?? null,
    startedAt: instant(item.startedAt),
    finishedAt: instant(item.finishedAt),
    conditions: item.conditions,
    majors: item.majors,
    minors: item.minors,
    pauses: item.pauses.map(({ from, to, note }) => ({
      from: instant(from),
      to: to === null ? null : instant(to),
      note,
    })),
    void: item.void ?? null,
    outcomeOnly: item.outcomeOnly ?? null,
    notes: item.notes,
    acknowledged: item.acknowledged.map(({ rosterNumber, at }) => ({
      soldierId: idOfNumber(rosterNumber),
      at: instant(at),
    })),
  }
}

/** An instant as it is; a time by the clock on the wall as the instant it is in a zone. */
export function toInstant(moment: string, zone: string): string {
  const [, day, hours, minutes] = /^(\d{4}-\d{2}-\d{2})T(\d{2}):(\d{2})$/.exec(moment) ?? []
  if (day === undefined) return moment
  return new Date(instantInZone(day, Number(hours) * 60 + Number(minutes), zone)).toISOString()
}

/** One candidate ends one test of a standard with one grader at one moment; the rest of the sheet may be mended. */
function idOf({ candidate, grader }: SheetItem, { standard, purpose, secondOf, finishedAt }: SheetBody): string {
  const key = [candidate, grader, standard, purpose, secondOf, new Date(toMillis(finishedAt)).toISOString()]
  return toUuid(createHash('sha256').update(JSON.stringify(key)).digest('hex'))
}
