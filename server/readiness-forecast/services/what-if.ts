import type { Context } from '../../context/context.ts'
import type { WhatIf, WhatIfQuery } from '../../contract/readiness-forecast/readiness-forecast.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { progressOn, retestsOf, statusOf } from '../../domain/certification/status.ts'
import { type Supposed, type SupposedSoldier, supposeTests } from '../../domain/readiness-forecast/suppose-tests.ts'
import { invalid } from '../../errors.ts'
import { listNeeds } from '../db/needs.db.ts'
import type { SoldierRow } from '../db/soldiers-ahead.db.ts'
import { attended, type Gathered, gatherAhead } from './gather-ahead.ts'
import { openCertification, openScope, requireDayToCome } from './open-question.ts'
import { toForecast } from './to-forecast.ts'

/** A forecast as things are booked, and as it would be; nothing is stored. */
export async function whatIf(context: Context, actor: Actor, query: WhatIfQuery): Promise<WhatIf> {
  const { unitId, certification: code, on } = query
  const { scope, asOf } = await openScope(context, actor, unitId)
  requireDayToCome(on, asOf)
  const certification = await openCertification(context, code)
  const question = { unitId, on, asOf }
  const supposed = supposedBy(query, certification.standards)
  const [gathered, needs] = await Promise.all([
    gatherAhead(context, scope, certification, question, 1),
    listNeeds(context.db, scope, { ...question, certificationId: certification.id }),
  ])
  const { tests, free } = supposeTests(
    gathered.rows.soldiers.map((soldier) => toSupposed(gathered, soldier)),
    supposed,
  )
  return {
    before: toForecast(gathered, needs),
    after: toForecast(gathered, needs, ({ soldierId }) => tests.get(soldierId)!),
    free,
  }
}

function supposedBy(query: WhatIfQuery, standards: readonly string[]): Supposed {
  const more = listOf(query.more).map((text) => {
    const [day = '', standard = '', slots = ''] = text.split('/')
    return { day, standard, slots: Number(slots) }
  })
  if (more.some(({ day, standard }) => day > query.on || !standards.includes(standard))) {
    const detail =
      'A test more must be of a standard that the certification requires, and not after the day asked about.'
    throw invalid('no-such-test', 'more', detail)
  }
  const fewer = listOf(query.fewer).map((text) => {
    const [testDayId = '', slots = ''] = text.split('/')
    return { testDayId, slots: Number(slots) }
  })
  return { more, fewer, away: listOf(query.away) }
}

const listOf = (text: string | undefined): string[] => (text ?? '').split(',').filter(Boolean)

function toSupposed({ certification, breaks, filter }: Gathered, soldier: SoldierRow): SupposedSoldier {
  const { history, soldierId, absences } = soldier
  const progress = progressOn(certification, breaks, history, filter.asOf)
  const { toward } = statusOf(certification, breaks, progress, [], filter.asOf)
  const retests = retestsOf(progress, history.reviews, filter.asOf)
  const open = soldier.isCertified
    ? []
    : certification.standards.flatMap((standard) => {
        const retest = retests.find((one) => one.standard === standard)
        if (retest?.needsReview || toward.some((go) => go.standard === standard)) return []
        return [{ standard, earliest: retest?.earliest ?? null, due: retest?.due ?? null }]
      })
  return {
    soldierId,
    tests: attended(soldier),
    open,
    isAway: (day) => absences.some(({ from, through }) => from <= day && (through === null || day <= through)),
  }
}
