import { notAllowed } from '../../access/services/require.ts'
import { scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import type { RunningTestBody, TestDayLine } from '../../contract/test-days/running-tests.ts'
import { shareSoldiers } from '../../db/locks.db.ts'
import { inTransaction } from '../../db/transaction.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { canSubmit } from '../../domain/access/permissions.ts'
import type { Scope } from '../../domain/access/scope.ts'
import { invalid, notFound } from '../../errors.ts'
import { testDayExists } from '../db/bookings/bookings.db.ts'
import { listLineBookings } from '../db/line-bookings.db.ts'
import { listClosedTests, listRunningTests, removeRunningTest, storeRunningTest } from '../db/test-day-line.db.ts'
import { testDayInScope } from '../db/test-days.db.ts'

/**
 * Takes word from a device of how a running test stands. It is of the moment, so it leaves no trace in the record; once
 * the sheet is stored, later word about it is dropped.
 */
export async function reportRunningTest(
  context: Context,
  actor: Actor,
  id: string,
  body: RunningTestBody,
): Promise<void> {
  if (!canSubmit(actor, { purpose: 'test', graderId: body.graderId })) throw notAllowed()
  await inTransaction(context.db, async (tx) => {
    if (!(await testDayExists(tx, body.testDayId)))
      throw unknown('test-day', '/testDayId', 'There is no such test day.')
    const { standards } = await context.catalogue.current(tx)
    const standardId = standards.get(body.standard)?.[0]?.standardId
    if (!standardId) throw unknown('standard', '/standard', `There is no standard "${body.standard}".`)
    const known = await shareSoldiers(tx, [body.candidateId, body.graderId])
    for (const key of ['candidateId', 'graderId'] as const) {
      if (!known.includes(body[key])) throw unknown('person', `/${key}`, 'Nobody on the roster has this id.')
    }
    await storeRunningTest(tx, id, standardId, body, context.clock())
  })
}

const unknown = (what: 'standard' | 'person' | 'test-day', pointer: string, detail: string) =>
  invalid(`unknown-${what}`, pointer, detail)

/** Takes a test off the line that will have no sheet: the grader their own, the office any. */
export async function endRunningTest(context: Context, actor: Actor, id: string): Promise<void> {
  const isOffice = actor.roles.includes('office')
  if (!isOffice && !(actor.roles.includes('grader') && actor.soldierId !== null)) throw notAllowed()
  await removeRunningTest(context.db, id, isOffice ? null : actor.soldierId)
}

/** Who is booked on a test day, what runs there now, and what was closed, as far as the account may see. */
export async function getTestDayLine(context: Context, actor: Actor, testDayId: string): Promise<TestDayLine> {
  const scope = await requireTestDay(context, actor, testDayId)
  const [bookings, running, closed] = await Promise.all([
    listLineBookings(context.db, scope, testDayId),
    listRunningTests(context.db, scope, testDayId, context.clock()),
    listClosedTests(context.db, scope, testDayId),
  ])
  return { bookings, running, closed }
}

/** Refuses a test day that is not there or out of scope. Out: the scope. */
export async function requireTestDay(context: Context, actor: Actor, testDayId: string): Promise<Scope> {
  const scope = await scopeFor(context, actor)
  if (!(await testDayInScope(context.db, scope, testDayId))) throw notFound('test day')
  return scope
}
