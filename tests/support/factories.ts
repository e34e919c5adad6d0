import { randomUUID } from 'node:crypto'
import type { z } from 'zod'
import type { StoredSheet } from '../../server/contract/sheets/sheets.ts'
import type { SoldierBody, UnitBody } from '../../server/contract/soldiers/soldiers.ts'
import type { CertificationBody } from '../../server/contract/standards/certifications.ts'
import type { Client } from './client.ts'
import { GO_MARKS, type SheetInput, shortStandard, times } from './sheet-body.ts'

let made = 0
/** A number that no other call gets. */
const next = (): number => ++made

export async function makeUnit(office: Client, unit: Partial<z.input<typeof UnitBody>> = {}): Promise<string> {
  const body = { name: `Unit ${next()}`, kind: 'unit', timeZone: 'UTC', ...unit }
  return (await office.post('/api/units', body)).id
}

export async function makeSoldier(
  office: Client,
  unitId: string,
  soldier: Partial<z.input<typeof SoldierBody>> = {},
): Promise<string> {
  const number = next()
  const names = {
    rosterNumber: `R${String(number).padStart(5, '0')}`,
    familyName: 'Ashford',
    givenName: `No. ${number}`,
  }
  const body = { ...names, grade: 'SGT', arms: ['sword', 'rifle'], unitId, from: '2020-01-01', ...soldier }
  return (await office.post('/api/soldiers', body)).id
}

/** Stores and publishes a version of the short standard. Out: its code. */
export async function makeStandard(
  office: Client,
  standard: Partial<Parameters<typeof shortStandard>[0]> = {},
): Promise<string> {
  const body = shortStandard({ code: `standard-${next()}`, ...standard })
  const { id } = await office.post('/api/standards', body)
  await office.post(`/api/standards/${id}/publish`, undefined, 200)
  return body.code
}

/** A certification of these standards. Out: its code. */
export async function makeCertification(
  office: Client,
  certification: Partial<z.input<typeof CertificationBody>> & { standards: string[] },
): Promise<string> {
  const code = `certification-${next()}`
  const body = { code, title: 'Certification', effectiveFrom: '2020-01-01', ...certification }
  await office.post('/api/certifications', body)
  return body.code
}

/** Carries over an award that lasts from a day in 2025 until the end of 2026, unless told otherwise. */
export async function carryOver(
  office: Client,
  soldierId: string,
  certification: string,
  days: { awardedOn?: string; validThrough?: string } = {},
): Promise<string> {
  const body = { awardedOn: '2025-06-01', validThrough: '2026-12-31', ...days, certification, evidence: 'Paper record' }
  return (await office.post(`/api/soldiers/${soldierId}/awards`, body)).id
}

/** What is tested, where, and by whom: a sponsor and a grader certified by carried-over awards. */
export interface Ground {
  readonly unitId: string
  readonly standard: string
  readonly certification: string
  readonly sponsorId: string
  readonly graderId: string
}

/** A unit, a standard, a certification of it, and the people of a test beside the candidate. */
export async function makeGround(
  office: Client,
  terms: Partial<z.input<typeof CertificationBody>> = {},
): Promise<Ground> {
  const [unitId, standard] = await Promise.all([makeUnit(office), makeStandard(office)])
  const certification = await makeCertification(office, { standards: [standard], ...terms })
  const [sponsorId, graderId] = await Promise.all([makeSoldier(office, unitId), makeSoldier(office, unitId)])
  await Promise.all([carryOver(office, sponsorId, certification), carryOver(office, graderId, certification)])
  return { unitId, standard, certification, sponsorId, graderId }
}

/** All that a valid test needs. */
export interface TestSetting extends Ground {
  readonly candidateId: string
  /** A valid sheet of the candidate that is GO, on 2 March 2026, unless told otherwise. */
  sheet(more?: Partial<SheetInput>): SheetInput
}

/** A new candidate, sponsored since the beginning of 2026, on a ground of their own where none is given. */
export async function makeTestSetting(office: Client, given?: Ground): Promise<TestSetting> {
  const ground = given ?? (await makeGround(office))
  const { unitId, standard, sponsorId, graderId } = ground
  const candidateId = await makeSoldier(office, unitId)
  await office.post(`/api/soldiers/${candidateId}/sponsorships`, { sponsorId, from: '2026-01-01' })
  const sheet = (more: Partial<SheetInput> = {}): SheetInput => ({
    standard,
    standardVersion: 1,
    arm: 'sword',
    candidateId,
    sponsorId,
    graderId,
    ...times('2026-03-02'),
    ...GO_MARKS,
    ...more,
  })
  return { ...ground, candidateId, sheet }
}

/** Stores a sheet under a new id. Out: how it stands. */
export function putSheet(office: Client, sheet: SheetInput, id: string = randomUUID()): Promise<StoredSheet> {
  return office.put(`/api/sheets/${id}`, sheet)
}

/** Practice of two measures of a short standard, on a day before the tests' own. */
export const practiceOf = (candidateId: string, standard: string, more: object = {}) => ({
  candidateId,
  standard,
  arm: null,
  startedAt: '2026-06-14T15:00:00Z',
  finishedAt: '2026-06-14T15:20:00Z',
  measures: [
    { code: 'halt', trials: ['correct', 'incorrect', 'correct'], faults: [{ trial: 2, code: 'tip-low' }] },
    { code: 'draw', trials: ['correct'] },
  ],
  ...more,
})
