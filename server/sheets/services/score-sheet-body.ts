import { randomUUID } from 'node:crypto'
import { isBlindedTo } from '../../access/db/blinding.db.ts'
import { notAllowed } from '../../access/services/require.ts'
import { scopeFor } from '../../access/services/scope-for.ts'
import { readDossier } from '../../assessment/db/dossiers.db.ts'
import type { Context } from '../../context/context.ts'
import type { ScoredSheet, SheetBody } from '../../contract/sheets/sheets.ts'
import type { Catalogue } from '../../db/catalogue.db.ts'
import type { Transaction } from '../../db/client.ts'
import { inTransaction } from '../../db/transaction.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { can, canSubmit } from '../../domain/access/permissions.ts'
import type { Scope } from '../../domain/access/scope.ts'
import { assessSoldier } from '../../domain/assessment/assess-soldier.ts'
import type { AssessedSheet } from '../../domain/assessment/types.ts'
import { dayInZone } from '../../domain/calendar/day-in-zone.ts'
import { toMillis } from '../../domain/calendar/to-millis.ts'
import { namedOn, presentPeople } from '../../domain/people/present-people.ts'
import { runningScore } from '../../domain/scoring/score-sheet.ts'
import { readPresentIds } from '../../soldiers/db/merges/merges.db.ts'
import { soldiersInScope } from '../../soldiers/db/roster.db.ts'
import { openSheet } from '../db/sheet-opening.db.ts'
import { scoreBody } from './score-body.ts'
import { scoredStandard } from './scored-standard.ts'
import { otherPeople } from './sheet-people.ts'
import { toResult } from './stored-sheet.ts'
import { requireReferences, utcDay } from './submit-sheet.ts'

/** No stored sheet has this id; it sorts behind every one that finished at the same instant. */
const UNSTORED = 'unstored'

/**
 * What a sheet would come to if it were stored now; an unfinished one is scored as it runs. Stores nothing. Where the
 * candidate is out of scope, or the other grader's judgement is not to be known yet, the answer is the score alone, the
 * same for everybody and for nobody: no attempt, no condition of a valid test, not whether the people named are there.
 */
export async function scoreSheetBody(
  context: Context,
  actor: Actor,
  sent: SheetBody,
  deviceTime: Date | null,
): Promise<ScoredSheet> {
  const scope = await scopeFor(context, actor)
  return inTransaction(context.db, async (tx) => {
    const body = presentPeople(sent, await readPresentIds(tx, namedOn(sent)))
    if (!canSubmit(actor, body)) throw notAllowed()
    const catalogue = await context.catalogue.current(tx)
    if (await mayKnow(tx, actor, scope, body)) return judged(tx, context, catalogue, body, deviceTime)
    return { result: toResult(scoreBody(catalogue, body).score, []), violations: [] }
  })
}

/**
 * Whether an account may know how a sheet is judged, which rests on the history of candidate and sponsor: both in scope, or
 * the sponsor one of the candidate's.
 */
async function mayKnow(tx: Transaction, actor: Actor, scope: Scope, body: SheetBody): Promise<boolean> {
  if (actor.soldierId !== null && (await isBlindedTo(tx, actor.soldierId, body.candidateId))) return false
  if (can(actor, 'decide-sheets')) return true
  const others = otherPeople(body).filter((id) => id !== actor.soldierId)
  const visible = await soldiersInScope(tx, scope, [body.candidateId, ...others])
  if (!visible.includes(body.candidateId)) return false
  const { sponsorships } = await readDossier(tx, body.candidateId)
  return others.every((id) => visible.includes(id) || sponsorships.some(({ sponsorId }) => sponsorId === id))
}

async function judged(
  tx: Transaction,
  context: Context,
  catalogue: Catalogue,
  body: SheetBody,
  deviceTime: Date | null,
): Promise<ScoredSheet> {
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
    startedAt: toMillis(body.startedAt),
    finishedAt: toMillis(body.finishedAt),
    day: dayInZone(toMillis(body.finishedAt), opening.timeZone ?? context.timeZone),
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
  const others = [body.graderId, ...(body.sponsorId ? [body.sponsorId] : [])]
  const dossier = await readDossier(tx, body.candidateId, others)
  const assessed = assessSoldier(catalogue.judging, { ...dossier, sheets: [...dossier.sheets, sheet] }, dossier.people)
  const own = assessed.sheets.find(({ id }) => id === UNSTORED)!
  return { result: toResult(score, own.attempts), violations: [...own.violations] }
}
