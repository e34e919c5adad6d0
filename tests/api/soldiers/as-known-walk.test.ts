import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { SheetSummary } from '../../../server/contract/sheets/sheets.ts'
import type { AsKnown } from '../../../server/contract/soldiers/as-known.ts'
import type { CertificationStatus, Retest } from '../../../server/contract/standards/certifications.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { beginWalk } from '../../support/random-walk.ts'
import { readStatuses } from '../../support/read-statuses.ts'
import { seededRandom } from '../../support/shuffled.ts'

const DAYS = 10
const STEPS_A_DAY = 6
const DAY_MS = 86_400_000
/** Days asked about each evening: amid what is entered, and after all of it. */
const AS_OF = ['2026-03-15', '2026-07-31']

interface Evening {
  readonly day: string
  readonly soldierId: string
  readonly asOf: string
  readonly standing: Standing
}

/** How somebody stands, as far as both answers say it. */
interface Standing {
  readonly statuses: CertificationStatus[]
  readonly retests: Pick<Retest, 'certification' | 'standard' | 'attempt' | 'on' | 'earliest' | 'due'>[]
  readonly sheets: Pick<SheetSummary, 'id' | 'state' | 'day' | 'revision'>[]
}

const retestKey = (one: { certification: string; standard: string }) => `${one.certification} ${one.standard}`

async function standingOf({ office }: TestApp, soldierId: string, asOf: string): Promise<Standing> {
  const retests = await office.get<{ items: Retest[] }>(`/api/retests?soldierId=${soldierId}&asOf=${asOf}`)
  const sheets = await office.get<{ items: SheetSummary[] }>(`/api/sheets?soldierId=${soldierId}&limit=500`)
  return {
    statuses: (await readStatuses(office, soldierId, asOf)).filter(
      ({ status, suspended }) => status !== 'no test yet' || suspended,
    ),
    retests: retests.items
      .map(({ certification, standard, attempt, on, earliest, due }) => {
        return { certification, standard, attempt, on, earliest, due }
      })
      .sort((a, b) => (retestKey(a) < retestKey(b) ? -1 : 1)),
    sheets: sheets.items
      .filter(({ day, body }) => day <= asOf && body.purpose === 'test')
      .map(({ id, state, day, revision }) => ({ id, state, day, revision })),
  }
}

/**
 * The same of an answer, as far as the other questions tell: certifications that fit the soldier, and retests of those who
 * are of the strength that day (which are open is in the status as well).
 */
function toldOf({ certifications, sheets }: AsKnown['known'], { statuses, retests: listed }: Standing): Standing {
  const fitting = certifications.filter((one) => statuses.some((other) => other.certification === one.certification))
  return {
    statuses: fitting.map(({ retests: _, ...status }) => status),
    retests: fitting
      .flatMap(({ certification, retests }) =>
        retests.map(({ standard, attempt, on, earliest, due }) => {
          return { certification, standard, attempt, on, earliest, due }
        }),
      )
      .filter((one) => listed.some((other) => retestKey(other) === retestKey(one)))
      .sort((a, b) => (retestKey(a) < retestKey(b) ? -1 : 1)),
    sheets: sheets.map(({ id, state, day, revision }) => ({ id, state, day, revision })).reverse(),
  }
}

describe.each([3, 5])('what is asked as known on a day (seed %i)', (seed) => {
  let test: TestApp
  beforeAll(async () => {
    // The same day in every zone of the walk, from Los Angeles to Auckland.
    test = await buildTestApp({ now: '2026-07-01T08:00:00Z' })
  })
  afterAll(() => test.close())

  it('is what was answered on the evening of that day, whatever was entered since, merges and their undoing included', async () => {
    const random = seededRandom(seed)
    const walk = await beginWalk(test, random)
    const evenings: Evening[] = []
    const merges: string[] = []
    for (let day = 0; day < DAYS; day++) {
      for (let step = 0; step < STEPS_A_DAY; step++) {
        test.clock.now = new Date(test.clock.now.getTime() + 60_000)
        await walk.step()
      }
      if (day % 3 === 2) await mergeTwin(day)
      for (const soldierId of walk.soldiers) {
        for (const asOf of AS_OF) {
          const standing = await standingOf(test, soldierId, asOf)
          evenings.push({ day: test.clock.now.toISOString().slice(0, 10), soldierId, asOf, standing })
        }
      }
      test.clock.now = new Date(test.clock.now.getTime() + DAY_MS)
      await test.sql('UPDATE session SET created_at = $1, seen_at = $1, confirmed_at = $1', [test.clock.now]) // Nobody signs in each morning.
    }
    let otherwise = 0
    for (const { day, soldierId, asOf, standing } of evenings) {
      const told = await test.office.get<AsKnown>(`/api/soldiers/${soldierId}/as-known?on=${day}&asOf=${asOf}`)
      const where = `${soldierId} as known on ${day}, as of ${asOf}`
      expect(toldOf(told.known, standing), where).toEqual(standing)
      const now = await standingOf(test, soldierId, asOf)
      expect(toldOf(told.now, now), `${where}, now`).toEqual(now)
      expect(told.complete, where).toBe(true)
      const differs = JSON.stringify(told.known) !== JSON.stringify(told.now)
      if (differs) expect(told.differences.length, where).toBeGreaterThan(0)
      otherwise += differs ? 1 : 0
    }
    expect(otherwise).toBeGreaterThan(evenings.length / 4)

    async function mergeTwin(day: number): Promise<void> {
      const open = merges.pop()
      if (open !== undefined && random() < 0.5) {
        await test.office.post(`/api/merges/${open}/undo`, { reason: 'Two people' }, 200)
        return
      }
      const keptId = walk.soldiers[day % walk.soldiers.length]!
      const { id: awayId } = await test.office.post('/api/soldiers', {
        ...{ rosterNumber: `T${day}`, familyName: 'Twice', givenName: 'Entered', grade: 'CPL', arms: ['sword'] },
        ...{ unitId: walk.units[0]!, from: '2025-08-01' },
      })
      await test.office.post(`/api/soldiers/${awayId}/awards`, {
        ...{ certification: 'drill', awardedOn: '2026-03-01', validThrough: '2026-12-31', evidence: 'Paper' },
      })
      const merge = { awayId, reason: 'Entered twice' }
      const answer = await test.office.tries('POST', `/api/soldiers/${keptId}/merges`, merge)
      expect(answer.status, JSON.stringify(answer.body)).toBeOneOf([201, 409])
      if (answer.status === 201) merges.push((answer.body as { id: string }).id)
    }
  })
})
