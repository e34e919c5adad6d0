import { fromCursor, toPage } from '../../context/cursor.ts'
import type { Effect } from '../../contract/standards/effects.ts'
import type { StandingChange } from '../../domain/certification/compare-standings.ts'
import type { ComparedStanding } from '../db/standings-compared.db.ts'

export interface EffectPage {
  readonly limit: number
  readonly after?: string | undefined
}

type Change = StandingChange<ComparedStanding>

/** An effect on the wire: a page of the changes, and the counts of all. */
export function toEffect(
  changes: readonly Change[],
  about: Pick<Effect, 'asOf' | 'people' | 'sheets'>,
  page: EffectPage,
): Effect {
  const key = fromCursor(page.after, ['text', 'text'])
  const items = changes.map(toItem).filter((item) => !key || isAfter(item, key))
  const shown = toPage(
    items.slice(0, page.limit + 1),
    page.limit,
    ({ rosterNumber, certification }) => [rosterNumber, certification],
    (item) => item,
  )
  return { ...about, ...shown, counts: countsOf(changes) }
}

function toItem({ before, after }: Change): Effect['items'][number] {
  const { soldierId, rosterNumber, name, grade, unitId, certification } = after ?? before!
  return {
    soldierId,
    rosterNumber,
    name,
    grade,
    unitId,
    certification,
    before: before && standing(before),
    after: after && standing(after),
  }
}

type Stands = NonNullable<Effect['items'][number]['before']>

const standing = ({ status, validThrough, required }: ComparedStanding): Stands => ({
  status: status as Stands['status'],
  validThrough,
  required,
})

const isAfter = (
  { rosterNumber, certification }: Effect['items'][number],
  [number, code]: readonly (string | number)[],
): boolean => rosterNumber > String(number) || (rosterNumber === number && certification > String(code))

function countsOf(changes: readonly Change[]): Effect['counts'] {
  const counts = new Map<string, Effect['counts'][number]>()
  for (const { certification, before, after } of changes.map(toItem)) {
    const key = JSON.stringify([certification, before?.status, after?.status, before?.required, after?.required])
    const count = counts.get(key)
    counts.set(key, {
      certification,
      before: before?.status ?? null,
      after: after?.status ?? null,
      requiredBefore: before?.required ?? false,
      requiredAfter: after?.required ?? false,
      count: (count?.count ?? 0) + 1,
    })
  }
  return [...counts.values()].sort((a, b) => b.count - a.count)
}
