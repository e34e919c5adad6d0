import type { SheetItem } from '../../../contract/imports/import-items.ts'
import type { SheetBody } from '../../../contract/sheets/sheets.ts'
import { dayInZone } from '../../../domain/calendar/day-in-zone.ts'
import { isSameSheet } from '../../../domain/import/same-sheet.ts'
import { closedScore, scoreBody } from '../../../sheets/services/score-body.ts'
import { sheetFields } from '../../../sheets/services/sheet-fields.ts'
import { soldiersByNumber } from '../../db/import-people.db.ts'
import { firstBodies, insertSheets } from '../../db/import-sheets.db.ts'
import { type Effect, formatRefusal, type Given, holdSoldiers, inParts, type Run, verdictList } from '../run.ts'
import { type SoundSheet, sheetBodies } from '../sheet-bodies.ts'

const TOGETHER = 500

/** Takes in grade sheets, whole or with their outcome only, as if each had been sent by itself. */
export async function applySheets(run: Run, given: readonly Given<SheetItem>[]): Promise<Effect> {
  const { tx, progress } = run
  const { verdicts, say } = verdictList()
  const soldiers = await soldiersByNumber(
    tx,
    given.flatMap(({ item }) => peopleOf(item)),
  )
  await holdSoldiers(
    run,
    [...soldiers.values()].map(({ id }) => id),
  )
  const bodies = await sheetBodies(run, given, soldiers)
  const stored = await firstBodies(
    tx,
    bodies.map(({ id }) => id),
  )
  const fresh: Scored[] = []
  for (const sheet of bodies) {
    const first = stored.get(sheet.id)
    if (first) {
      if (isSameSheet(first, sheet.body)) say(sheet.rows, 'unchanged', sheet.about)
      else
        say(
          sheet.rows,
          'refused',
          sheet.about,
          `A sheet of this test is stored already and says otherwise (${sheet.id}). Amend it there, with a reason.`,
        )
      continue
    }
    const scored = scoreOne(run, sheet)
    if ('wrong' in scored) {
      say(sheet.rows, 'refused', sheet.about, ...scored.wrong)
      continue
    }
    stored.set(sheet.id, sheet.body)
    fresh.push(scored)
    say(sheet.rows, 'added', sheet.about)
  }
  await inParts(fresh, TOGETHER, async (part, done) => {
    progress('sheets', done, fresh.length)
    await insertSheets(tx, part)
  })
  const byCandidate = new Map<string, string[]>()
  for (const { fields } of fresh)
    byCandidate.set(fields.candidateId, [...(byCandidate.get(fields.candidateId) ?? []), fields.id])
  return {
    verdicts,
    triggers: [...byCandidate].map(([soldierId, newSheets]) => ({ soldierId, newSheets })),
    sheets: new Map(fresh.map(({ fields, rows }) => [fields.id, rows])),
  }
}

type Scored = Parameters<typeof insertSheets>[1][number] & { readonly rows: readonly number[] }

const peopleOf = ({ candidate, grader, sponsor, acknowledged }: SheetItem): string[] => [
  candidate,
  grader,
  ...(sponsor ? [sponsor] : []),
  ...acknowledged.map(({ rosterNumber }) => rosterNumber),
]

function scoreOne({ catalogue, now, actor }: Run, { id, body, zone, rows }: SoundSheet): Scored | { wrong: string[] } {
  try {
    const { version, score } = scoreBody(catalogue, body)
    const closed = closedScore(score)
    const day = dayInZone(body.finishedAt, zone)
    const state = body.purpose === 'practice' ? ('counted' as const) : ('held' as const)
    const fields = { ...sheetFields(id, body, version, closed, day), state, clockSkewMs: null }
    return {
      rows,
      fields,
      revision: { number: 1, at: now, byId: actor.accountId, reason: null, body: asSent(body), score: closed },
    }
  } catch (error) {
    return { wrong: formatRefusal(error) }
  }
}

/** As a body is read back from the record. */
const asSent = (body: SheetBody): SheetBody => JSON.parse(JSON.stringify(body))
