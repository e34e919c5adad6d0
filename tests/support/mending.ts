import { expect } from 'vitest'
import type { SoldierChange } from '../../server/contract/soldiers/soldiers.ts'
import { addDays } from '../../server/domain/calendar/plain-date.ts'
import type { TestApp } from './build-test-app.ts'
import { type Importer, makeImporter } from './import-file.ts'
import type { Walk } from './random-walk.ts'
import { shortStandard } from './sheet-body.ts'

/** What an office mends and takes in afterwards. */
export interface Mending {
  /** Does one thing at random; expects the server to take it, or to refuse it for a reason. Out: what it did. */
  step(): Promise<string>
}

/** Corrections of the past, ends of sponsorships, merges and their undoing, files, and looking at what would change. */
export async function beginMending(test: TestApp, walk: Walk, random: () => number): Promise<Mending> {
  const { office } = test
  const importer: Importer = await makeImporter(test)
  const oneOf = <Item>(items: readonly Item[]): Item => items[Math.floor(random() * items.length)]!
  const day = () => addDays('2026-01-05', Math.floor(random() * 150))
  const merges: string[] = []
  let made = 0

  const tries = async (what: string, allowed: number[], ...asked: Parameters<typeof office.tries>): Promise<string> => {
    const { status, body } = await office.tries(...asked)
    expect(status, `${what}: ${JSON.stringify(body)}`).toBeOneOf(allowed)
    return `${what}: ${status}`
  }
  const numberOf = async (id: string) =>
    (await office.get<{ rosterNumber: string }>(`/api/soldiers/${id}`)).rosterNumber
  const anyChange = async (soldierId: string) =>
    oneOf((await office.get<{ items: SoldierChange[] }>(`/api/soldiers/${soldierId}/changes`)).items)

  async function correct(): Promise<string> {
    const soldierId = oneOf(walk.soldiers)
    const { id, ...change } = await anyChange(soldierId)
    const said = Object.fromEntries(Object.entries(change).filter(([, value]) => value !== null))
    const other = oneOf([
      { from: day() },
      { arms: ['sword'] },
      { arms: [] },
      'unitId' in said && { unitId: oneOf(walk.units) },
    ])
    const body = { ...said, ...(other || {}), reason: 'Misread' }
    return tries(
      `corrected ${soldierId} ${JSON.stringify(body)}`,
      [200, 409, 422],
      'PUT',
      `/api/soldiers/${soldierId}/changes/${id}`,
      body,
    )
  }

  async function takeBack(): Promise<string> {
    const soldierId = oneOf(walk.soldiers)
    const { id } = await anyChange(soldierId)
    const path = `/api/soldiers/${soldierId}/changes/${id}/remove`
    return tries(`took back a change of ${soldierId}`, [200, 409, 422], 'POST', path, { reason: 'Misread' })
  }

  async function endSponsorship(): Promise<string> {
    const all = await test.sql<{ id: string; of: string }>('SELECT id, candidate_id AS of FROM sponsorship ORDER BY id')
    if (all.length === 0) return 'no sponsorship to end'
    const { id, of } = oneOf(all)
    return tries(`ended ${id}`, [200, 409, 422], 'POST', `/api/soldiers/${of}/sponsorships/${id}/end`, { on: day() })
  }

  /** A second entry of somebody, with a sheet and an award, merged into the first; or one of these merges undone. */
  async function merge(): Promise<string> {
    const last = merges.pop()
    // 409: what was corrected since lies before the kept one joined by their own entries.
    if (last !== undefined)
      return tries(`undid ${last}`, [200, 409], 'POST', `/api/merges/${last}/undo`, { reason: 'Two' })
    const [keptId, sponsorId, graderId] = [oneOf(walk.soldiers), oneOf(walk.soldiers), oneOf(walk.soldiers)]
    const names = { rosterNumber: `M${made++}`, familyName: 'Twice', givenName: 'Entered' }
    const entry = { ...names, grade: 'CPL', arms: ['sword'], unitId: oneOf(walk.units), from: '2026-01-01' }
    const { id: awayId } = await office.post('/api/soldiers', entry)
    const award = { certification: 'guard', awardedOn: day(), validThrough: '2026-12-31', evidence: 'Paper' }
    if (random() < 0.5) await office.post(`/api/soldiers/${awayId}/awards`, award)
    await office.post(`/api/soldiers/${awayId}/sponsorships`, { sponsorId, from: day() })
    const on = day()
    await office.put(`/api/sheets/${crypto.randomUUID()}`, {
      standard: oneOf(['manual', 'march']),
      standardVersion: 1,
      arm: 'sword',
      candidateId: awayId,
      sponsorId,
      graderId,
      startedAt: `${on}T09:00:00Z`,
      finishedAt: `${on}T09:30:00Z`,
      outcomeOnly: oneOf(['GO', 'NO-GO']),
    })
    const body = { awayId, reason: 'Twice' }
    await tries('looked at a merge', [200], 'POST', `/api/soldiers/${keptId}/merges/preview`, { awayId })
    const { status, body: answer } = await office.tries('POST', `/api/soldiers/${keptId}/merges`, body)
    expect(status, JSON.stringify(answer)).toBeOneOf([201, 409])
    if (status === 201) merges.push((answer as { id: string }).id)
    return `merged ${awayId} into ${keptId}: ${status}`
  }

  async function takeIn(): Promise<string> {
    const [who, sponsor] = [await numberOf(oneOf(walk.soldiers)), await numberOf(oneOf(walk.soldiers))]
    const [from, to] = [day(), addDays('2026-06-10', Math.floor(random() * 60))]
    const file = oneOf([
      `Roster number,Certification,Awarded on,Valid through,Evidence\n${who},guard,${from},${to},Binder\n`,
      `Roster number,Standard,From,To\n${who},manual,${from},${to}\n`,
      `Roster number,Sponsor roster number,From,To\n${who},${sponsor},${from},${to}\n`,
    ])
    const { state, counts } = await importer.all(file)
    expect(state).toBe('stored')
    return `took in ${JSON.stringify(file)}: ${JSON.stringify(counts)}`
  }

  /** Trying out a change must leave nothing behind. */
  async function lookAhead(): Promise<string> {
    const effectiveFrom = day()
    if (random() < 0.5) {
      const terms = {
        code: 'guard',
        title: 'guard',
        standards: ['manual', 'march'],
        windowDays: 5,
        waitDays: 30,
        effectiveFrom,
      }
      return tries('looked at terms', [200, 409], 'POST', '/api/certifications/effect', { terms })
    }
    const version = 1000 + made++
    const { id } = await office.post(
      '/api/standards',
      shortStandard({ code: 'manual', version, effectiveFrom, equivalentToPrevious: false }),
    )
    const said = await tries('looked at a version', [200, 409, 422], 'POST', `/api/standards/${id}/effect`, {})
    await office.tries('DELETE', `/api/standards/${id}`)
    return said
  }

  const absent = () => {
    const body = { from: day(), through: '2026-12-31', kind: 'course' }
    return tries('absent', [201, 409], 'POST', `/api/soldiers/${oneOf(walk.soldiers)}/absences`, body)
  }
  const acts = [
    correct,
    correct,
    takeBack,
    endSponsorship,
    endSponsorship,
    merge,
    merge,
    takeIn,
    takeIn,
    lookAhead,
    absent,
  ]
  return { step: () => oneOf(acts)() }
}
