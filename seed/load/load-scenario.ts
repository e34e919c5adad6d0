import { DEMO_PASSWORD } from '../../server/accounts/services/demo-accounts.ts'
import { hashPassword } from '../../server/accounts/services/password.ts'
import { getLists, saveLists } from '../../server/arms-and-grades/services/lists.ts'
import { addNote } from '../../server/coaching/services/coaching-notes.ts'
import type { Context } from '../../server/context/context.ts'
import { getLevels, saveLevels } from '../../server/soldiers/services/levels.ts'
import { createUnit } from '../../server/soldiers/services/units.ts'
import { demoArms, demoGrades } from '../catalogue/arms-and-grades.ts'
import { demoLevels } from '../catalogue/levels.ts'
import type { Scenario } from '../generate/plan.ts'
import { bookTestDays } from './book-test-days.ts'
import { createAccount } from './create-account.ts'
import { enterEvent } from './enter-event.ts'
import { footprintOf } from './footprint.ts'
import { type Ids, idOf, idOrNull } from './ids.ts'
import { inOrder } from './in-order.ts'

/** By which the graders of the demo's past sent their sheets; it has no password. */
const GRADERS = { name: 'graders', role: 'grader', soldier: null, unitKey: null } as const

/** More would only wait for each other. */
const AT_ONCE = 4

/** Loads a scenario into an empty database: the office enters everything, each thing by the clock of its own time. */
export async function loadScenario(context: Context, { units, events, accounts, notes }: Scenario): Promise<void> {
  const ids: Ids = {
    units: new Map(),
    soldiers: new Map(),
    testDays: new Map(),
    suspensions: new Map(),
    proposals: new Map(),
  }
  const createdAt = new Date(events[0]!.at)
  const signIn = { passwordHash: await hashPassword(DEMO_PASSWORD), createdAt }
  const [clerk, deputy, ...others] = accounts
  const first = await createAccount(context.db, ids, clerk!, signIn)
  const second = await createAccount(context.db, ids, deputy!, signIn)
  const graders = await createAccount(context.db, ids, GRADERS, { passwordHash: null, createdAt })
  const writers = { first, second, graders }
  for (const { key, name, kind, parentKey, timeZone } of units) {
    const body = { name, kind, parentId: idOrNull(ids.units, parentKey), timeZone }
    const { id } = await createUnit({ ...context, clock: () => createdAt }, first, body)
    ids.units.set(key, id)
  }
  const atFirst = { ...context, clock: () => createdAt }
  const { version } = await getLists(atFirst, first)
  await saveLists(atFirst, first, { grades: [...demoGrades], arms: [...demoArms], version })
  const { version: atStart } = await getLevels(atFirst, first)
  await saveLevels(atFirst, first, { levels: [...demoLevels], version: atStart })
  const sheets = new Map(events.flatMap((event) => (event.kind === 'sheet' ? [[event.id, event.body] as const] : [])))
  await inOrder(
    events,
    AT_ONCE,
    (event) => footprintOf(event, sheets),
    (event) => enterEvent(context, writers, ids, event),
  )
  for (const account of others) {
    const actor = await createAccount(context.db, ids, account, signIn)
    if (account.role !== 'sponsor') continue
    for (const { at, candidate, body } of notes) {
      await addNote({ ...context, clock: () => new Date(at) }, actor, idOf(ids.soldiers, candidate), body)
    }
  }
  const grader = accounts.find(({ role }) => role === 'grader')?.soldier
  if (grader) await bookTestDays(context, first, ids, events, grader)
}
