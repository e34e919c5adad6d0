import { addDays, type PlainDate } from '../../../server/domain/calendar/plain-date.ts'
import type { FilledRecord } from '../generate/fill-database.ts'

/** What somebody who sees everything asks, and some of it of one battalion: a name, and path with query. */
export function wideQuestions({ establishment }: FilledRecord, today: PlainDate): [name: string, path: string][] {
  const unit = establishment.battalions[0]!
  const period = `from=${addDays(today, -365)}&to=${today}`
  return [
    ['readiness trend', '/api/readiness/trend'],
    ['readiness trend of a battalion', `/api/readiness/trend?unitId=${unit}`],
    ['time to certify', '/api/findings/time-to-certify'],
    ['retest backlog', '/api/retests/backlog'],
    ['readiness, first 100', '/api/readiness?limit=100'],
    ['requirements', '/api/requirements?limit=50'],
    ['lapses', '/api/readiness/lapses?limit=50'],
    ['open retests', '/api/retests?limit=50'],
    ['sponsors', '/api/findings/sponsors'],
    ['pairs', '/api/findings/pairs'],
    ['quality', '/api/findings/quality'],
    ['graders', '/api/findings/graders'],
    ['failing measures', '/api/findings/measures'],
    ['failing measures, 12 months', `/api/findings/measures?${period}`],
    ['failing measures of a battalion', `/api/findings/measures?unitId=${unit}`],
    ['NO-GO rates by month', '/api/findings/trend'],
    ['people', '/api/soldiers?limit=50'],
    ['search that finds some', '/api/search?q=Halv'],
    ['search that finds nothing', '/api/search?q=zzzzqq'],
    ['record, latest 50', '/api/record?limit=50'],
    ['record of a soldier', `/api/record?limit=50&soldierId=${establishment.soldiers[0]!.id}`],
    ['held sheets', '/api/sheets?state=held&limit=50'],
    ['notices', '/api/notices?limit=50'],
  ]
}

/** So many can be named in one ceremony. */
const POSTS = 400
const A_RANK = 50

/** A ceremony that the whole brigade mans, in a month. */
export function greatCeremony({ establishment }: FilledRecord, today: PlainDate): string {
  const day = addDays(today, 30)
  return JSON.stringify({
    title: 'Review of the brigade',
    unitId: establishment.units[0]!.id,
    startsAt: `${day}T15:00:00Z`,
    endsAt: `${day}T16:00:00Z`,
    posts: Array.from({ length: POSTS }, (_, n) => ({
      title: `Post ${n + 1}`,
      row: Math.floor(n / A_RANK) + 1,
      place: (n % A_RANK) + 1,
      certification: n % 10 === 0 ? 'saber' : 'sword',
    })),
  })
}
