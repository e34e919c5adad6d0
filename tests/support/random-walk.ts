import { expect } from 'vitest'
import type { WaitingAward } from '../../server/contract/readiness/commanders-words.ts'
import type { SheetDetail } from '../../server/contract/sheets/sheets.ts'
import { SheetBody } from '../../server/contract/sheets/sheets.ts'
import { addDays } from '../../server/domain/calendar/plain-date.ts'
import type { TestApp } from './build-test-app.ts'
import type { FindingsFilter } from './by-the-letter/recount.ts'
import type { Answer, Client } from './client.ts'
import { makeCertification, makeSoldier, makeStandard, makeUnit } from './factories.ts'
import { GO_MARKS, marks, NO_GO_MARKS, type SheetInput, STOPPED_MARKS, shortStandard } from './sheet-body.ts'

type Random = () => number

/** A small battalion in which anything may happen to anybody. */
export interface Walk {
  readonly units: readonly string[]
  readonly soldiers: readonly string[]
  readonly sheets: readonly string[]
  /** Does one thing at random; expects the server to take it, or to refuse it for a reason. Out: what it did. */
  step(): Promise<string>
  /** A filter of the findings at random. */
  filter(): FindingsFilter
}

const STANDARDS = ['manual', 'march'] as const
const GRADES = ['SGT', 'SSG'] as const
const ARMS = ['sword', 'saber', 'rifle'] as const
const FIRST_DAY = '2026-01-05'
const DAYS = 150
const SOLDIERS = 8
const HOUR_MS = 3_600_000

/**
 * `clashes`: steps are taken at the same time, so that one may find that another was faster (409). `signing`: commanders say
 * more, grades change, and terms say of whom they ask.
 */
export async function beginWalk(
  test: TestApp,
  random: Random,
  { clashes = false, signing = false } = {},
): Promise<Walk> {
  const { office } = test
  const second = await test.signedIn({ name: 'second' })
  const oneOf = <Item>(items: readonly Item[]): Item => items[Math.floor(random() * items.length)]!
  const chance = (probability: number) => random() < probability
  const hex = (digits: number) =>
    Math.floor(random() * 16 ** digits)
      .toString(16)
      .padStart(digits, '0')
  const uuid = () => `${hex(8)}-${hex(4)}-4${hex(3)}-8${hex(3)}-${hex(12)}`
  const day = (spread = DAYS) => addDays(FIRST_DAY, Math.floor(random() * spread))

  const root = await makeUnit(office, { name: 'Battalion' })
  const companies = [
    await makeUnit(office, { name: 'A', kind: 'company', parentId: root }),
    await makeUnit(office, { name: 'B', kind: 'company', parentId: root, timeZone: 'America/Los_Angeles' }),
  ]
  const platoons = await Promise.all(
    [...companies, companies[1]!].map((parentId, index) =>
      makeUnit(office, { kind: 'platoon', parentId, timeZone: index === 2 ? 'Pacific/Auckland' : null }),
    ),
  )
  const homes = [...companies, ...platoons]
  const commander = await test.signedIn({ name: 'commander', roles: ['commander'], unitId: root })
  for (const code of STANDARDS) await makeStandard(office, { code })
  const codes = [
    await makeCertification(office, {
      code: 'guard',
      standards: [...STANDARDS],
      windowDays: 40,
      validityMonths: 2,
      extensionDays: 60,
    }),
    await makeCertification(office, {
      code: 'drill',
      standards: ['manual'],
      arms: ['sword', 'saber'],
      waitDays: 5,
      reviewAfter: 2,
      approval: 'required',
      extensionDays: 40,
    }),
  ]
  const soldiers: string[] = []
  for (let count = 0; count < SOLDIERS; count++) {
    const arms = count % 3 === 0 ? ['sword'] : ['sword', 'rifle']
    soldiers.push(await makeSoldier(office, oneOf(homes), { arms, from: '2025-06-01' }))
  }
  const sheets: string[] = []
  const suspensions: string[] = []
  let versions = 1

  function expectStatus({ status, body }: Answer, ...expected: number[]): void {
    expect(status, JSON.stringify(body)).toBeOneOf(clashes ? [...expected, 409] : expected)
  }

  const othersThan = (id: string) => soldiers.filter((one) => one !== id)

  function sheet(): SheetInput {
    const candidateId = oneOf(soldiers)
    const finished = Date.parse(`${day()}T00:00:00Z`) + Math.floor(random() * 24) * HOUR_MS
    const how = random()
    const body: SheetInput = {
      purpose: chance(0.06) ? 'practice' : 'test',
      standard: oneOf(STANDARDS),
      standardVersion: 1,
      arm: chance(0.8) ? 'sword' : oneOf(ARMS),
      candidateId,
      sponsorId: chance(0.1) ? null : oneOf(chance(0.95) ? othersThan(candidateId) : soldiers),
      graderId: oneOf(chance(0.95) ? othersThan(candidateId) : soldiers),
      secondOf: chance(0.06) && sheets.length > 0 ? oneOf(sheets) : null,
      startedAt: new Date(finished - Math.floor(random() * 3) * HOUR_MS).toISOString(),
      finishedAt: new Date(finished).toISOString(),
      conditions: { uniform: !chance(0.05), equipment: true, sponsorPresent: true },
      ...marksAtRandom(),
    }
    if (how < 0.06) return { ...body, void: { kind: 'weather' } }
    if (how < 0.35) return { ...body, majors: [], minors: [], outcomeOnly: oneOf(['GO', 'NO-GO']) }
    return body
  }

  function marksAtRandom(): Pick<SheetInput, 'majors' | 'minors'> {
    if (chance(0.1)) return STOPPED_MARKS
    if (chance(0.4)) return GO_MARKS
    if (chance(0.4)) return NO_GO_MARKS
    return withReadings(marks(...(['draw', 'halt', 'turn'] as const).filter(() => chance(0.4))))
  }

  function withReadings({
    majors,
    minors,
  }: Pick<SheetInput, 'majors' | 'minors'>): Pick<SheetInput, 'majors' | 'minors'> {
    const readings = [1, 2, 3]
      .filter(() => chance(0.7))
      .map((trial) => ({ trial, gauge: 'tip', value: (3 + random() * 4).toFixed(2) }))
      .map((one) =>
        (Number(one.value) >= 4 && Number(one.value) <= 6) || chance(0.5) ? one : { ...one, override: 'wind' },
      )
    return { majors, minors: minors!.map((minor) => (minor.code === 'halt' ? { ...minor, readings } : minor)) }
  }

  const put = async (client: Client = office) => {
    const id = uuid()
    const answer = await client.tries('PUT', `/api/sheets/${id}`, sheet())
    expectStatus(answer, 201)
    sheets.push(id)
    return `put ${(answer.body as { state: string }).state} sheet ${id}`
  }

  async function amend(): Promise<string> {
    if (sheets.length === 0) return put()
    const id = oneOf(sheets)
    const detail = await office.get<SheetDetail>(`/api/sheets/${id}`)
    const fields = Object.keys(SheetBody.shape)
    const now = Object.fromEntries(Object.entries(detail).filter(([field]) => fields.includes(field))) as SheetInput
    const { candidateId: _candidate, standard: _standard, ...other } = sheet()
    const some = Object.fromEntries(Object.entries(other).filter(() => chance(0.4)))
    const body = chance(0.25)
      ? oneOf(detail.revisions).body
      : { ...now, ...some, ...(chance(0.3) ? { ...other, secondOf: null } : {}) }
    const answer = await office.tries('POST', `/api/sheets/${id}/amendments`, { reason: 'Misread', sheet: body })
    if (answer.status === 202) {
      const proposal = (answer.body as { id: string }).id
      const decision = { decision: 'confirm', reason: 'Seen' }
      expectStatus(await second.tries('POST', `/api/amendments/${proposal}/decision`, decision), 200)
    } else expectStatus(answer, 200, 422)
    return `amended ${id}: ${answer.status}`
  }

  async function decide(): Promise<string> {
    const held = (await office.get<{ items: { id: string }[] }>('/api/sheets?state=held&limit=500')).items
    const id = held.length > 0 ? oneOf(held).id : sheets.length > 0 ? oneOf(sheets) : uuid()
    const decision = chance(0.8) ? 'count' : 'reject'
    const answer = await second.tries('POST', `/api/sheets/${id}/decision`, { decision, reason: 'Seen' })
    expectStatus(answer, 200, 404, 409, 422)
    return `decided to ${decision} ${id}: ${answer.status}`
  }

  async function record(soldierId: string, kind: string, body: object, ...statuses: number[]): Promise<string> {
    const answer = await office.tries('POST', `/api/soldiers/${soldierId}/${kind}`, body)
    expectStatus(answer, ...statuses)
    return `${kind} of ${soldierId} ${JSON.stringify(body)}: ${answer.status}`
  }
  const period = () => {
    const from = day()
    return { from, to: chance(0.5) ? null : addDays(from, Math.floor(random() * 60)) }
  }

  function change(): Promise<string> {
    const from = day(DAYS + 40)
    const what = random()
    // 422: where the day of joining was corrected to a later one.
    if (signing && chance(0.3)) return record(oneOf(soldiers), 'changes', { from, grade: oneOf(GRADES) }, 200, 422)
    if (what < 0.4) return record(oneOf(soldiers), 'changes', { from, unitId: oneOf(homes) }, 200, 422)
    if (what < 0.7) return record(oneOf(soldiers), 'changes', { from, arms: ARMS.filter(() => chance(0.6)) }, 200, 422)
    if (what < 0.8) return record(oneOf(soldiers), 'changes', { from, left: 'transferred' }, 200, 422)
    const joining = { from: addDays(from, -90), unitId: oneOf(homes), grade: 'SSG', arms: ['sword', 'rifle'] }
    return record(oneOf(soldiers), 'changes', joining, 200)
  }

  async function suspend(): Promise<string> {
    const open = suspensions.pop()
    if (open !== undefined && chance(0.6)) {
      const answer = await office.tries('POST', `/api/suspensions/${open}/lift`, { on: day(), reason: 'Closed' })
      expectStatus(answer, 200, 422)
      return `lifted ${open}: ${answer.status}`
    }
    const body = { soldierId: oneOf(soldiers), certification: oneOf(codes), from: day(), reason: 'Inquiry' }
    const { id } = await office.post('/api/suspensions', body)
    suspensions.push(id)
    return `suspended ${JSON.stringify(body)}`
  }

  /** Signs or refuses what waits, or takes a word back. */
  async function approve(): Promise<string> {
    const said = await test.sql<{ id: string }>(
      'SELECT id FROM award_decision WHERE taken_back_at IS NULL ORDER BY entry',
    )
    if (said.length > 0 && chance(0.3)) {
      const { id } = oneOf(said)
      expectStatus(await commander.tries('POST', `/api/approvals/${id}/take-back`, { reason: 'Misread' }), 200, 404)
      return `took decision ${id} back`
    }
    const { items } = await commander.get<{ items: WaitingAward[] }>('/api/approvals?limit=500')
    if (items.length === 0) return 'nothing waits'
    const decision = chance(0.7) ? 'approve' : 'refuse'
    const some = signing ? [oneOf(items)] : items.filter(() => chance(0.6))
    const chosen = some.map(({ certification, sheetId }) => ({ certification, sheetId }))
    if (chosen.length === 0) return 'nothing chosen'
    // Soon after the test; at random mostly before it, which is refused.
    const on = signing ? addDays(some[0]!.awardedOn, Math.floor(random() * 20)) : day()
    const body = { decision, on, reason: 'Seen', items: chosen }
    const answer = await commander.tries('POST', '/api/approvals', body)
    expectStatus(answer, 201, 422)
    return `${decision} ${JSON.stringify(body.items)} on ${body.on}: ${answer.status}`
  }

  /** Extends a certification, or takes an extension back. */
  async function extend(): Promise<string> {
    const said = await test.sql<{ id: string }>(
      'SELECT id FROM award_extension WHERE taken_back_at IS NULL ORDER BY entry',
    )
    if (said.length > 0 && chance(0.3)) {
      const { id } = oneOf(said)
      expectStatus(await commander.tries('POST', `/api/extensions/${id}/take-back`, { reason: 'Misread' }), 200, 404)
      return `took extension ${id} back`
    }
    const held = signing
      ? await test.sql<{ soldierId: string; certification: string; on: string }>(
          `SELECT soldier_id AS "soldierId", c.code AS certification, from_day::text AS on FROM standing
            JOIN certification c ON c.id = certification_id WHERE status = 'certified' AND from_day <= '2026-07-01'
            ORDER BY from_day, c.code, valid_through LIMIT 20`,
        )
      : []
    const what = { soldierId: oneOf(soldiers), certification: oneOf(codes), days: 1 + Math.floor(random() * 40) }
    const why = { kind: oneOf(['deployment', 'injury', 'other']), reason: 'Away', on: day() }
    const body = { ...what, ...why, ...(held.length > 0 && oneOf(held)) }
    const answer = await commander.tries('POST', '/api/extensions', body)
    expectStatus(answer, 201, 404, 409, 422)
    return `extended ${JSON.stringify(body)}: ${answer.status}`
  }

  async function changeCatalogue(): Promise<string> {
    if (chance(0.6)) {
      const code = oneOf(codes)
      const standards = code === 'guard' ? [...STANDARDS] : ['manual']
      const terms = {
        sequence: oneOf(['any', 'in-order']),
        windowDays: oneOf([10, 40, 90]),
        validityMonths: oneOf([1, 2, 12]),
        waitDays: oneOf([0, 7, 14]),
        reviewAfter: oneOf([1, 2, 3]),
        approval: oneOf(['none', 'none', 'required', 'required-from-award']),
        extensionDays: oneOf([0, 30, 90]),
        ...(signing && {
          requiredOf: oneOf([null, { grades: [oneOf(GRADES)] }, { units: [oneOf(homes)] }]),
        }),
      }
      const arms = code === 'drill' ? ['sword', 'saber'] : []
      const body = { code, title: code, standards, arms, ...terms, effectiveFrom: day() }
      const answer = await office.tries('POST', '/api/certifications', body)
      expectStatus(answer, 201, 409)
      return `terms of ${code} from ${body.effectiveFrom}: ${answer.status}`
    }
    versions += 1
    const version = shortStandard({
      code: oneOf(STANDARDS),
      version: versions,
      effectiveFrom: addDays(FIRST_DAY, 60 + versions * 7),
      equivalentToPrevious: chance(0.5),
      arms: chance(0.3) ? ['sword', 'saber'] : [],
    })
    const { id } = await office.post('/api/standards', version)
    await office.post(`/api/standards/${id}/publish`, undefined, 200)
    return `version ${versions} of ${version.code} from ${version.effectiveFrom}`
  }

  const award = () => {
    const awardedOn = day()
    const validThrough = addDays(awardedOn, Math.floor(random() * 200))
    const body = { certification: oneOf(codes), awardedOn, validThrough, evidence: 'Paper' }
    return record(oneOf(soldiers), 'awards', body, 201)
  }
  const sponsorship = () => {
    const candidateId = oneOf(soldiers)
    return record(candidateId, 'sponsorships', { sponsorId: oneOf(othersThan(candidateId)), ...period() }, 201, 409)
  }
  const STEPS: readonly (readonly [weight: number, act: () => Promise<string>])[] = [
    [40, () => put()],
    [14, amend],
    [12, decide],
    [5, award],
    [8, sponsorship],
    [4, () => record(oneOf(soldiers), 'appointments', { standard: oneOf(STANDARDS), ...period() }, 201, 409)],
    [3, () => record(oneOf(soldiers), 'reviews', { standard: oneOf(STANDARDS), on: day() }, 201)],
    [3, () => record(oneOf(soldiers), 'withdrawals', { certification: oneOf(codes), on: day(), reason: 'Moved' }, 201)],
    [5, change],
    [4, suspend],
    [3, changeCatalogue],
    [signing ? 24 : 6, approve],
    [signing ? 20 : 5, extend],
  ]

  return {
    units: [root, ...homes],
    soldiers,
    sheets,
    step() {
      let left = random() * STEPS.reduce((sum, [weight]) => sum + weight, 0)
      for (const [weight, act] of STEPS) {
        left -= weight
        if (left < 0) return act()
      }
      return put()
    },
    filter() {
      const from = day()
      return {
        ...(chance(0.5) && { unitId: oneOf([root, ...homes]) }),
        ...(chance(0.4) && { standard: oneOf(STANDARDS) }),
        ...(chance(0.3) && { arm: oneOf(ARMS) }),
        ...(chance(0.5) && { attempts: oneOf(['first', 'retest', 'renewal', 'all'] as const) }),
        ...(chance(0.6) && { from }),
        ...(chance(0.6) && { to: addDays(from, Math.floor(random() ** 2 * 400)) }),
      }
    },
  }
}
