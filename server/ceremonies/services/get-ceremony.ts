import { scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import type { CeremonyDetail } from '../../contract/ceremonies/ceremonies.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { notFound } from '../../errors.ts'
import { readCeremony } from '../db/ceremonies.db.ts'
import { judgeAlternates, judgePosts, toSummary } from './manning/judge-ceremony.ts'
import { reachOf } from './reach.ts'
import { toInstant } from './to-instant.ts'

/** One ceremony: times, posts as they form up with who may stand there, alternates, and what this account may change. */
export async function getCeremony(context: Context, actor: Actor, id: string): Promise<CeremonyDetail> {
  const scope = await scopeFor(context, actor)
  const row = await readCeremony(context.db, scope, id)
  if (!row) throw notFound('ceremony')
  const formation = judgePosts(row)
  const { minutesBefore, minutesAfter, notes, version } = row
  return {
    ...toSummary(row, formation),
    minutesBefore,
    minutesAfter,
    notes,
    version,
    may: row.cancelReason === null ? await reachOf(context.db, actor, scope, row.unitId) : 'look',
    rehearsals: row.rehearsals.map((rehearsal) => ({
      ...rehearsal,
      startsAt: toInstant(rehearsal.startsAt),
      endsAt: toInstant(rehearsal.endsAt),
    })),
    formation,
    alternates: judgeAlternates(row),
  }
}
