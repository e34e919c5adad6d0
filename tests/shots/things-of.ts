import { setTimeout } from 'node:timers/promises'
import type { Things } from '../support/addresses.ts'

/** The demo's accounts by the role whose desk they show. */
export const ROLES = [
  { role: 'office', account: 'office' },
  { role: 'commander', account: 'commander' },
  { role: 'leader', account: 'leader' },
  { role: 'sponsor', account: 'sponsor' },
  { role: 'grader', account: 'grader' },
  { role: 'soldier', account: 'soldier' },
  { role: 'administrator', account: 'admin' },
] as const

interface Page {
  items?: { id?: string; code?: string; soldierId?: string; candidateId?: string; standard?: string }[]
}

/** Signs in over the API. Out: what the addresses of screens are about, as this account sees it: the first of each list. */
export async function thingsOf(url: string, name: string, password: string): Promise<Things> {
  const answer = await fetch(`${url}/api/session`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', origin: url },
    body: JSON.stringify({ name, password }),
  })
  if (!answer.ok) throw new Error(`${name} cannot sign in: ${answer.status} ${await answer.text()}`)
  const cookie = answer.headers
    .getSetCookie()
    .map((each) => each.split(';')[0])
    .join('; ')
  const first = async (path: string) => {
    const list = await fetch(`${url}/api/${path}`, { headers: { cookie } })
    return list.ok ? ((await list.json()) as Page).items?.[0] : undefined
  }
  const [sheet, ceremony, standard, certification, retest, testDay, file] = await Promise.all([
    first('sheets?limit=1'),
    first('ceremonies?limit=1'),
    first('standards?limit=1'),
    first('certifications?limit=1'),
    first('retests?limit=1'),
    first('test-days?limit=1'),
    first('imports?limit=1'),
  ])
  const unit = await first('units?limit=1')
  const planned = name === 'office' && unit?.id ? await planOf(url, cookie, unit.id) : undefined
  const none = '00000000-0000-4000-8000-000000000000'
  const candidate = retest?.soldierId ?? sheet?.candidateId ?? none
  return {
    desk: '',
    candidates: candidate,
    people: candidate,
    retests: `${candidate}/${retest?.standard ?? 'none'}`,
    terms: certification?.code ?? 'none',
    sheets: sheet?.id ?? none,
    ceremonies: ceremony?.id ?? none,
    standards: standard?.code ?? 'none',
    'test-days': testDay?.id ?? none,
    'retest-plans': planned ?? none,
    import: file?.id ?? none,
  }
}

const DAYS_PLANNED = 60
const WATCH_MS = 300

/** A retest plan of the next days, worked out. */
async function planOf(url: string, cookie: string, unitId: string): Promise<string> {
  const headers = { cookie, origin: url, 'content-type': 'application/json' }
  const [from, to] = [0, DAYS_PLANNED].map((days) =>
    new Date(Date.now() + days * 86_400_000).toISOString().slice(0, 10),
  )
  const body = JSON.stringify({ kind: 'retests', unitId, from, to })
  const { id } = (await (await fetch(`${url}/api/plans`, { method: 'POST', headers, body })).json()) as { id: string }
  for (;;) {
    const plan = (await (await fetch(`${url}/api/plans/${id}`, { headers })).json()) as { state: string }
    if (plan.state !== 'waiting' && plan.state !== 'solving') return id
    await setTimeout(WATCH_MS)
  }
}
