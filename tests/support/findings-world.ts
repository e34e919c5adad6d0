import { randomUUID } from 'node:crypto'
import type { Client } from './client.ts'
import { carryOver, makeCertification, makeSoldier, makeStandard, makeUnit, putSheet } from './factories.ts'
import { GO_MARKS, type SheetInput, times } from './sheet-body.ts'

/**
 * A battalion of two companies with one platoon each, in which tests count whatever their order: no waiting between
 * attempts, no review asked for.
 */
export interface FindingsWorld {
  readonly battalion: string
  readonly companies: readonly [string, string]
  readonly platoons: readonly [string, string]
  readonly standard: string
  readonly certification: string
  readonly graders: readonly [string, string]
  readonly sponsors: readonly [string, string]
  /** A soldier of a platoon (the first), coached by both sponsors since 2020. */
  candidate(platoon?: 0 | 1): Promise<string>
  /** Stores a test that counts, GO on this day at this hour unless told otherwise. Out: its id. */
  tested(candidateId: string, day: string, more?: Partial<SheetInput>, hour?: number): Promise<string>
}

export async function makeFindingsWorld(office: Client, standardCode?: string): Promise<FindingsWorld> {
  const battalion = await makeUnit(office, { name: 'Battalion' })
  const company = (name: string) => makeUnit(office, { name, kind: 'company', parentId: battalion, timeZone: null })
  const companies = [await company('Company A'), await company('Company B')] as const
  const platoon = (parentId: string) => makeUnit(office, { kind: 'platoon', parentId, timeZone: null })
  const platoons = [await platoon(companies[0]), await platoon(companies[1])] as const
  const standard = standardCode ?? (await makeStandard(office))
  const terms = { waitDays: 0, reviewAfter: 1000, windowDays: 1 }
  const certification = await makeCertification(office, { standards: [standard], arms: ['sword'], ...terms })
  const certified = async (familyName: string) => {
    const id = await makeSoldier(office, battalion, { familyName })
    await carryOver(office, id, certification, { awardedOn: '2020-01-01', validThrough: '2030-12-31' })
    return id
  }
  const sponsors = [await certified('Aldous'), await certified('Brightwell')] as const
  const graders = [await certified('Corrigan'), await certified('Dunmore')] as const
  return {
    battalion,
    companies,
    platoons,
    standard,
    certification,
    graders,
    sponsors,
    async candidate(place = 0) {
      const id = await makeSoldier(office, platoons[place])
      for (const sponsorId of sponsors)
        await office.post(`/api/soldiers/${id}/sponsorships`, { sponsorId, from: '2020-01-01' })
      return id
    },
    async tested(candidateId, day, more = {}, hour = 10) {
      const id = randomUUID()
      const people = { candidateId, sponsorId: sponsors[0], graderId: graders[0] }
      const facts = { standard, standardVersion: 1, arm: 'sword', ...people, ...times(day, hour), ...GO_MARKS, ...more }
      const { state, violations } = await putSheet(office, facts, id)
      if (state !== 'counted') throw new Error(`The sheet is ${state}: ${JSON.stringify(violations)}`)
      return id
    },
  }
}
