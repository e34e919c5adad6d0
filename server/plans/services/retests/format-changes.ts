import type { Context } from '../../../context/context.ts'
import { today as todayOf } from '../../../context/today.ts'
import type { PlanItem } from '../../../domain/plans/problem.ts'
import type { ProblemChange } from '../../../domain/plans/retests/changes.ts'
import type { StoredPlan } from '../../db/plans.db.ts'
import { readPeople } from '../../db/retest-facts.db.ts'

/** More than these nobody reads. */
const MOST_SAID = 20

/** Changes in sentences, the first ones; the last says how many more there are. */
export async function formatChanges(
  context: Context,
  { unitId }: StoredPlan,
  changes: readonly ProblemChange[],
): Promise<string[]> {
  const said = changes.slice(0, MOST_SAID)
  const ids = said.flatMap((change) => ('test' in change ? [String(change.test.candidateId)] : []))
  const people = await readPeople(context.db, ids, await todayOf(context, unitId))
  const { standards } = await context.catalogue.current(context.db)
  const who = ({ candidateId }: PlanItem) => people.get(String(candidateId))?.name ?? 'A soldier who is gone'
  const what = ({ standard }: PlanItem) => standards.get(String(standard))?.at(-1)?.definition.title ?? String(standard)
  const say = (change: ProblemChange): string => {
    switch (change.what) {
      case 'test gone':
        return `${who(change.test)} needs no slot for ${what(change.test)} any more.`
      case 'new test':
        return `${who(change.test)} needs a slot for ${what(change.test)} now.`
      case 'test changed':
        return `The due day or first day of ${who(change.test)} for ${what(change.test)} has changed.`
      case 'slot gone':
        return `The slot on ${when(change.slot)} is not free any more.`
      case 'new slot':
        return `A slot on ${when(change.slot)} is free now.`
      case 'slot changed':
        return `The slot on ${when(change.slot)} was changed.`
      case 'not possible':
        return `${who(change.test)} can no longer be tested on ${when(change.slot)}.`
      case 'possible now':
        return `${who(change.test)} can be tested on ${when(change.slot)} now.`
      case 'fills a post now':
        return `${who(change.test)} would fill a short post by passing ${what(change.test)}, which was not so or of another day.`
      case 'fills no post':
        return `No short post waits any more for ${who(change.test)} to pass ${what(change.test)}.`
      case 'chance':
        return `The chance of ${who(change.test)} to pass ${what(change.test)} is about ${change.tenths} of 10 now, not ${change.before}.`
      default:
        return 'Due days have passed since.'
    }
  }
  const sentences = [...new Set(said.map(say))]
  const more = changes.length - said.length
  return more > 0 ? [...sentences, `And ${more} more changes.`] : sentences
}

const when = ({ day }: PlanItem): string => String(day)
