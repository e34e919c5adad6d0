import { isAtOrBelow } from '../../../access/db/units.db.ts'
import { type CeremonyRow, listCeremonies } from '../../../ceremonies/db/ceremonies.db.ts'
import type { FactsRow } from '../../../ceremonies/db/manning-facts.db.ts'
import { readOutlook } from '../../../ceremonies/db/outlook.db.ts'
import { countStood } from '../../../ceremonies/db/post-candidates.db.ts'
import { occasionOf } from '../../../ceremonies/services/manning/judge-ceremony.ts'
import { MOST_ROWS } from '../../../ceremonies/services/manning/outlook-of.ts'
import type { Context } from '../../../context/context.ts'
import { today as todayOf } from '../../../context/today.ts'
import { namingScope, type Scope } from '../../../domain/access/scope.ts'
import { daysBetween } from '../../../domain/calendar/plain-date.ts'
import { manningProblem } from '../../../domain/plans/manning/manning-problem.ts'
import type { PlanProblem } from '../../../domain/plans/problem.ts'
import { invalid } from '../../../errors.ts'
import type { PlanAsked } from '../../db/plans.db.ts'
import { alternatesWanted, LOAD_DAYS } from './alternates-wanted.ts'
import { byRosterNumber } from './somebody.ts'

const MOST_CEREMONIES = 60

/** The problem of manning all ceremonies of a period of a unit and those below it, with the soldiers whom the scope lets one name. */
export async function gatherManning(context: Context, scope: Scope, asked: PlanAsked): Promise<PlanProblem> {
  const today = await todayOf(context, asked.unitId)
  const from = asked.from > today ? asked.from : today
  const filter = { from, through: asked.to, cancelled: false }
  const page = { limit: MOST_CEREMONIES + 1, after: null }
  const listed = from > asked.to ? [] : await listCeremonies(context.db, scope, filter, page)
  const ceremonies: CeremonyRow[] = []
  for (const ceremony of listed) {
    if (await isAtOrBelow(context.db, ceremony.unitId, asked.unitId)) ceremonies.push(ceremony)
  }
  if (ceremonies.length > MOST_CEREMONIES) {
    const detail = `More than ${MOST_CEREMONIES} ceremonies are not planned at once: bring from and to closer together.`
    throw invalid('too-many-ceremonies', '/to', detail)
  }
  const known = new Map<string, FactsRow>()
  const people = new Map<string, FactsRow>()
  for (const ceremony of ceremonies) {
    const question = { ceremonyId: ceremony.id, unitId: undefined, today, limit: MOST_ROWS }
    for (const row of [...ceremony.facts, ...(await readOutlook(context.db, namingScope(scope), question))]) {
      known.set(`${ceremony.id} ${row.soldierId} ${row.certification}`, row)
      people.set(row.soldierId, row)
    }
  }
  const stood = await countStood(context.db, [...people.keys()], {
    ceremonyId: null,
    day: asked.to,
    days: LOAD_DAYS + daysBetween(from, asked.to),
  })
  return manningProblem({
    letGo: false,
    ceremonies: ceremonies.map((ceremony) => ({
      id: ceremony.id,
      occasion: occasionOf(ceremony),
      posts: ceremony.posts,
      alternates: ceremony.alternates.map(({ soldierId }) => soldierId),
      alternatesWanted: alternatesWanted(ceremony),
    })),
    soldiers: [...people.values()]
      .sort(byRosterNumber)
      .map(({ soldierId, heightCm }) => ({ id: soldierId, stood: stood.get(soldierId) ?? 0, heightCm })),
    factsOf: (ceremonyId, soldierId, certification) => known.get(`${ceremonyId} ${soldierId} ${certification}`) ?? null,
  })
}
