import { randomUUID } from 'node:crypto'
import { scopeFor } from '../../access/services/scope-for.ts'
import { readDossier } from '../../assessment/db/dossiers.db.ts'
import type { Context } from '../../context/context.ts'
import type { ScoredSheet, SheetBody } from '../../contract/sheets/sheets.ts'
import { inTransaction } from '../../db/transaction.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { assessSoldier } from '../../domain/assessment/assess-soldier.ts'
import type { AssessedSheet } from '../../domain/assessment/types.ts'
import { dayInZone } from '../../domain/calendar/day-in-zone.ts'
import { namedOn, presentPeople } from '../../domain/people/present-people.ts'
import { runningScore } from '../../domain/scoring/score-sheet.ts'
import { readPresentIds } from '../../soldiers/db/merges/merges.db.ts'
import { openSheet } from '../db/sheets.db.ts'
import { requireSubmittable } from './require-submittable.ts'
import { scoreBody } from './score-body.ts'
import { scoredStandard } from './scored-standard.ts'
import { otherPeople } from './sheet-people.ts'
import { toResult } from './stored-sheet.ts'
import { requireReferences, utcDay } from './submit-sheet.ts'

/** No stored sheet has this id; it sorts behind every one that finished at the same instant. */
const UNSTORED = 'unstored'

/** What a sheet would come to if it were stored now; an unfinished one is scored as it runs. Stores nothing. */
export async function scoreSheetBody(
  context: Context,
  actor: Actor,
  sent: SheetBody,
  deviceTime: Date | null,
): Promise<ScoredSheet> {
  const scope = await scopeFor(context, actor)
  return inTransaction(context.db, async (tx) => {
    const body = presentPeople(sent, await readPresentIds(tx, namedOn(sent)))
    await requireSubmittable(tx, actor, scope, body)
    const catalogue = await context.catalogue.current(tx)
    const opening = await openSheet(tx, {
      id: randomUUID(),
      ...body,
      otherIds: otherPeople(body),
      utcDay: utcDay(body),
    })
    requireReferences(UNSTORED, body, opening)
    const { version, score } = scoreBody(catalogue, body)
    const now = context.clock().getTime()
    const { uniform, equipment, sponsorPresent } = body.conditions
    const sheet: AssessedSheet = {
      ...body,
      id: UNSTORED,
      version: body.standardVersion,
      startedAt: Date.parse(body.startedAt),
      finishedAt: Date.parse(body.finishedAt),
      day: dayInZone(body.finishedAt, opening.timeZone ?? context.timeZone),
      outcome: score.outcome ?? 'NO-GO',
      outcomeOnly: score.ending === 'recorded',
      isVoid: score.ending === 'void',
      isSecond: body.secondOf !== null,
      conditionsMet: uniform && equipment && sponsorPresent,
      voidAfterFailure: score.ending === 'void' && !runningScore(scoredStandard(version), body).reachable,
      storedAt: now,
      clockSkewMs: deviceTime ? deviceTime.getTime() - now : null,
      state: 'new',
      violations: [],
      waived: [],
      tolerated: [],
    }
    const dossier = await readDossier(tx, body.candidateId, [
      body.graderId,
      ...(body.sponsorId ? [body.sponsorId] : []),
    ])
    const assessed = assessSoldier(
      catalogue.judging,
      { ...dossier, sheets: [...dossier.sheets, sheet] },
      dossier.people,
    )
    const own = assessed.sheets.find(({ id }) => id === UNSTORED)!
    return { result: toResult(score, own.attempts), violations: [...own.violations] }
  })
}
