import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { SheetDetail, StoredSheet } from '../../../server/contract/sheets/sheets.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import type { Client } from '../../support/client.ts'
import { carryOver, makeSoldier, makeTestSetting, putSheet, type TestSetting } from '../../support/factories.ts'
import { makeImporter } from '../../support/import-file.ts'
import { readStatuses } from '../../support/read-statuses.ts'
import { secondPerson } from '../../support/second-person.ts'
import { NO_GO_MARKS, outcomeOnly, times } from '../../support/sheet-body.ts'

let test: TestApp
let setting: TestSetting
/** Office and commander in one, who is the soldier `selfId` and coaches `coachedId`. */
let partial: Client
let selfId: string
let coachedId: string
/** Named as the sponsor on sheets of both. */
let sponsor: Client
beforeAll(async () => {
  test = await buildTestApp()
  setting = await makeTestSetting(test.office)
  selfId = await makeSoldier(test.office, setting.unitId, { rosterNumber: 'SELF' })
  coachedId = await makeSoldier(test.office, setting.unitId, { rosterNumber: 'COACHED' })
  const { certification, sponsorId, unitId } = setting
  await carryOver(test.office, selfId, certification)
  await test.office.post(`/api/soldiers/${selfId}/sponsorships`, { sponsorId, from: '2026-01-01' })
  await test.office.post(`/api/soldiers/${coachedId}/sponsorships`, { sponsorId: selfId, from: '2026-01-01' })
  sponsor = await test.signedIn({ name: 'sponsor', roles: ['office', 'sponsor'], soldierId: sponsorId })
  const roles = ['office', 'commander', 'grader', 'sponsor']
  partial = await test.signedIn({ name: 'partial', roles, soldierId: selfId, unitId })
})
afterAll(() => test.close())

/** Whether an operation may change how somebody stands, and by what call about a soldier that is tried. */
type Attempt = (soldierId: string) => Promise<readonly [method: 'POST' | 'PUT', path: string, body: object]>

const about =
  (path: string, body: object): Attempt =>
  async (id) => ['POST', `/api/soldiers/${id}${path}`, body]

const held = async (candidateId: string): Promise<string> =>
  (await putSheet(test.office, setting.sheet({ candidateId, sponsorId: null, ...someDay() }))).id

/** A sheet whose award waits for a commander. */
const awaiting = async (candidateId: string): Promise<string> => {
  const terms = { approval: 'required', effectiveFrom: '2020-01-01' }
  const body = { code: 'signed', title: 'Signed', standards: [setting.standard], ...terms }
  await test.office.tries('POST', '/api/certifications', body)
  const sheet = setting.sheet({ candidateId, sponsorId: setting.sponsorId, ...someDay(), ...outcomeOnly('GO') })
  return (await putSheet(test.office, sheet)).id
}

let day = 0
const someDay = () => times(`2026-03-${String((day++ % 28) + 1).padStart(2, '0')}`)

/** Every operation that is refused about oneself and whom one coaches. */
const REFUSED: Readonly<Record<string, Attempt>> = {
  submitSheet: async (candidateId) => [
    'PUT',
    `/api/sheets/${randomUUID()}`,
    setting.sheet({ candidateId, sponsorId: setting.sponsorId, ...someDay() }),
  ],
  decideSheet: async (id) => [
    'POST',
    `/api/sheets/${await held(id)}/decision`,
    { decision: 'count', reason: 'I was there' },
  ],
  amendSheet: async (candidateId) => [
    'POST',
    `/api/sheets/${await held(candidateId)}/amendments`,
    { reason: 'Misread', sheet: setting.sheet({ candidateId, sponsorId: null, notes: 'Mine', ...someDay() }) },
  ],
  decideAmendment: async (candidateId) => {
    const id = await held(candidateId)
    const sheet = setting.sheet({ candidateId, ...someDay() })
    const answer = await test.office.tries('POST', `/api/sheets/${id}/amendments`, { reason: 'Misread', sheet })
    expect(answer.status).toBe(202)
    const proposal = (answer.body as { id: string }).id
    return ['POST', `/api/amendments/${proposal}/decision`, { decision: 'confirm', reason: 'Right' }]
  },
  decideAppeal: async (candidateId) => {
    const { id } = await putSheet(test.office, setting.sheet({ candidateId, ...someDay() }))
    const appeal = await sponsor.post(`/api/sheets/${id}/appeals`, { reason: 'Misread' })
    return ['POST', `/api/appeals/${appeal.id}/decision`, { decision: 'uphold', reason: 'Right' }]
  },
  addAward: async (id) =>
    about('/awards', {
      certification: setting.certification,
      awardedOn: '2026-05-01',
      validThrough: '2030-01-01',
      evidence: 'Paper',
    })(id),
  addSponsorship: async (id) =>
    about('/sponsorships', { sponsorId: setting.graderId, from: '2019-01-01', to: '2019-02-01' })(id),
  endSponsorship: async (id) => {
    const [one] = await test.sql<{ id: string }>('SELECT id FROM sponsorship WHERE candidate_id = $1', [id])
    return ['POST', `/api/soldiers/${id}/sponsorships/${one!.id}/end`, { on: '2026-06-01' }]
  },
  addAppointment: async (id) =>
    about('/appointments', { standard: setting.standard, from: '2026-01-01', to: null })(id),
  addReview: async (id) => about('/reviews', { standard: setting.standard, on: '2026-06-01', note: 'Held' })(id),
  addWithdrawal: async (id) =>
    about('/withdrawals', { certification: setting.certification, on: '2026-06-01', reason: 'Leaves' })(id),
  moveDueDay: async (id) =>
    about('/due-days', {
      certification: setting.certification,
      standard: setting.standard,
      due: '2027-01-01',
      reason: 'Leave',
    })(id),
  suspend: async (soldierId) => [
    'POST',
    '/api/suspensions',
    { soldierId, certification: setting.certification, from: '2026-06-01', reason: 'Inquiry' },
  ],
  liftSuspension: async (soldierId) => {
    const body = { soldierId, certification: setting.certification, from: '2026-06-01', reason: 'Inquiry' }
    const { id } = await test.office.post('/api/suspensions', body)
    return ['POST', `/api/suspensions/${id}/lift`, { on: '2026-06-02', reason: 'Closed' }]
  },
  decideAwards: async (candidateId) => {
    const sheetId = await awaiting(candidateId)
    const items = [{ certification: 'signed', sheetId }]
    return ['POST', '/api/approvals', { decision: 'approve', items }]
  },
  takeBackAwardDecision: async (candidateId) => {
    const sheetId = await awaiting(candidateId)
    const [row] = await test.sql<{ id: string }>(
      `INSERT INTO award_decision (soldier_id, certification_id, sheet_id, decision, on_day, reason)
       SELECT $1, id, $2, 'approve', '2026-06-01', '' FROM certification WHERE code = 'signed' RETURNING id`,
      [candidateId, sheetId],
    )
    return ['POST', `/api/approvals/${row!.id}/take-back`, { reason: 'Misread' }]
  },
  extendCertification: async (soldierId) => {
    const body = { certification: setting.certification, days: 5, kind: 'injury', reason: 'Knee' }
    return ['POST', '/api/extensions', { soldierId, ...body }]
  },
  takeBackExtension: async (soldierId) => {
    const award = await carryOver(test.office, soldierId, setting.certification)
    const [row] = await test.sql<{ id: string }>(
      `INSERT INTO award_extension (soldier_id, certification_id, carried_award_id, days, kind, on_day, reason)
       SELECT $1, certification_id, id, 5, 'injury', '2026-06-01', 'Knee' FROM carried_award WHERE id = $2 RETURNING id`,
      [soldierId, award],
    )
    return ['POST', `/api/extensions/${row!.id}/take-back`, { reason: 'Misread' }]
  },
  changeSoldier: about('/changes', { from: '2026-06-01', arms: ['saber'] }),
  correctChange: async (id) => {
    const [one] = await test.sql<{ entry: number }>(
      'SELECT id::int AS entry FROM soldier_change WHERE soldier_id = $1',
      [id],
    )
    const body = { from: '2020-01-01', grade: 'CPT', arms: ['saber'], unitId: setting.unitId, reason: 'Misread' }
    return ['PUT', `/api/soldiers/${id}/changes/${one!.entry}`, body]
  },
  removeChange: async (id) => {
    const [one] = await test.sql<{ entry: number }>(
      'SELECT id::int AS entry FROM soldier_change WHERE soldier_id = $1',
      [id],
    )
    return ['POST', `/api/soldiers/${id}/changes/${one!.entry}/remove`, { reason: 'Misread' }]
  },
  removeSoldier: async (id) => about('/removal', { reason: 'Asked', confirmation: 'SELF' })(id),
  mergeSoldiers: async (id) => about('/merges', { awayId: setting.candidateId, reason: 'The same' })(id),
  previewMerge: async (id) => about('/merges/preview', { awayId: setting.candidateId })(id),
  undoMerge: async (id) => {
    const awayId = await makeSoldier(test.office, setting.unitId)
    const merge = await test.office.post(`/api/soldiers/${id}/merges`, { awayId, reason: 'The same' })
    return ['POST', `/api/merges/${merge.id}/undo`, { reason: 'Others after all' }]
  },
}

/** Every other operation that changes something, and why it may be done about oneself, or where that is tried. */
const DECIDED: Readonly<Record<string, string>> = {
  ...saying('tried below', 'storeImport', 'checkImport', 'publishStandard', 'createCertification', 'changeAccount'),
  ...saying('a trial of what is tried below', 'effectOfPublishing', 'effectOfTerms'),
  ...saying(
    'stores nothing that counts until it is stored',
    'sendImport',
    'suggestImportColumns',
    'cancelImport',
    'removeImport',
  ),
  ...saying('a draft judges nobody', 'createStandard', 'changeDraft', 'deleteDraft'),
  ...saying(
    'lists of the unit and its tree, of nobody',
    'saveArmsAndGrades',
    'changeUnit',
    'removeUnit',
    'orderUnits',
    'saveUnitLevels',
    'skipFirstStep',
  ),
  ...saying(
    'carries everybody of a unit over alike; where that changes how one of one’s own stands, settle refuses',
    'moveUnit',
  ),
  ...saying('an entry without a past; joining it to another is a merge', 'createSoldier', 'createUnit'),
  ...saying(
    'names, height and absences change how nobody stands',
    'correctNames',
    'setHeight',
    'addAbsence',
    'changeAbsence',
    'removeAbsence',
  ),
  ...saying(
    'a booking changes how nobody stands; its sheet is judged',
    'addBooking',
    'addWalkIn',
    'planBookings',
    'bookInBulk',
    'moveBooking',
    'cancelBooking',
    'markBooking',
    'setSecondGrader',
    'acceptPlan',
    'undoPlan',
  ),
  ...saying('a plan changes nothing before it is accepted', 'askPlan', 'stopPlan'),
  ...saying(
    'a day or slot changes how nobody stands',
    'createTestDay',
    'changeTestDay',
    'addSlots',
    'callOffTestDay',
    'changeSlot',
    'removeSlot',
  ),
  ...saying(
    'a running test counts for nothing',
    'reportRunningTest',
    'endRunningTest',
    'scoreSheet',
    'identifySoldier',
  ),
  ...saying(
    'who stands where is worked out, not entered',
    'createCeremony',
    'changeCeremony',
    'cancelCeremony',
    'nameSoldiers',
    'changeAlternates',
    'askUnit',
    'answerAsk',
    'takeAskBack',
  ),
  ...saying(
    'what sponsors write counts for nothing',
    'addCoachingNote',
    'changeCoachingNote',
    'removeCoachingNote',
    'restoreCoachingNote',
    'storePractice',
    'removePractice',
  ),
  ...saying('one appeals in one’s own case; another decides', 'appealSheet'),
  ...saying(
    'about the account, not the soldier',
    'inviteAccount',
    'inviteAccounts',
    'proposeAccountNames',
    'disableAccount',
    'sendLinkAnew',
    'lookAtLink',
    'acceptLink',
    'signIn',
    'signOut',
    'makeFirstAccount',
    'endOwnSessions',
    'endOwnSession',
    'changePassword',
    'makeToken',
    'revokeToken',
    'makeCalendarLink',
    'revokeCalendarLink',
    'readNotices',
    'finishSignIn',
    'signInByPasskey',
  ),
  ...saying(
    'how somebody shows who they are',
    'addPasskey',
    'askForPasskey',
    'askForPasskeyAlone',
    'askToConfirmByPasskey',
    'beginApp',
    'beginPasskey',
    'changeFactorRules',
    'confirmIdentity',
    'confirmNewApp',
    'knowOfReset',
    'makeRecoveryCodes',
    'removeApp',
    'removePasskey',
    'resetFactors',
  ),
  ...saying(
    'who vouches for accounts',
    'beginLink',
    'beginSignOn',
    'endByProvider',
    'foldPasswords',
    'leave',
    'putProvider',
    'testProvider',
    'tryRules',
    'unlinkOwnIdentity',
  ),
  ...saying(
    'what reaches an account, and how',
    'changeMailAddress',
    'changePush',
    'chooseMail',
    'confirmMailAddress',
    'dropMail',
    'removeMailAddress',
    'retryMail',
    'sendMailCode',
    'sendTestMail',
    'subscribeToPush',
    'unsubscribeFromPush',
  ),
  ...saying('says what stands on a paper, and changes nothing', 'verifyCertificate'),
  ...saying('a copy of everything', 'beginBackup'),
}

function saying(why: string, ...operations: string[]): Record<string, string> {
  return Object.fromEntries(operations.map((operation) => [operation, why]))
}

const problemOf = async (soldierId: string, attempt: Attempt) => {
  const [method, path, body] = await attempt(soldierId)
  return partial.refused(403, method, path, body)
}

describe('nobody judges their own case', () => {
  it('and every operation that changes something has been decided about', async () => {
    const document = await test.office.get<{ paths: Record<string, Record<string, { operationId: string }>> }>(
      '/api/openapi.json',
    )
    const operations = Object.values(document.paths).flatMap((methods) =>
      Object.entries(methods).flatMap(([method, { operationId }]) => (method === 'get' ? [] : [operationId])),
    )
    expect(operations.length).toBeGreaterThan(70)
    expect(operations.sort()).toEqual([...Object.keys(REFUSED), ...Object.keys(DECIDED)].sort())
  })

  it.each(Object.entries(REFUSED))('%s is refused about oneself', async (_operation, attempt) => {
    expect((await problemOf(selfId, attempt)).type).toBe('urn:reviewstand:problem:impartiality')
  })

  it.each(Object.entries(REFUSED))('%s is refused about whom one coaches', async (_operation, attempt) => {
    expect((await problemOf(coachedId, attempt)).type).toBe('urn:reviewstand:problem:impartiality')
  })

  it('not by giving up the own entry in a merge either', async () => {
    const awayId = selfId
    const refused = await partial.refused(403, 'POST', `/api/soldiers/${setting.candidateId}/merges`, {
      awayId,
      reason: 'The same',
    })
    expect(refused.type).toBe('urn:reviewstand:problem:impartiality')
  })

  it('not by qualifying the grader of a held sheet of one’s own', async () => {
    const graderId = await makeSoldier(test.office, setting.unitId)
    const { id, state } = await putSheet(test.office, setting.sheet({ candidateId: selfId, graderId, ...someDay() }))
    expect(state).toBe('held')
    const body = { standard: setting.standard, from: '2026-01-01', to: null }
    expect((await partial.refused(403, 'POST', `/api/soldiers/${graderId}/appointments`, body)).type).toBe(
      'urn:reviewstand:problem:impartiality',
    )
    expect(await test.office.get(`/api/sheets/${id}`)).toMatchObject({ state: 'held' })
    await test.office.post(`/api/soldiers/${graderId}/appointments`, body)
    expect(await test.office.get(`/api/sheets/${id}`)).toMatchObject({ state: 'counted' })
  })

  it('not by a result that is nothing but an outcome, graded by oneself', async () => {
    const body = setting.sheet({ candidateId: coachedId, graderId: selfId, ...outcomeOnly('GO'), ...someDay() })
    await partial.refused(403, 'PUT', `/api/sheets/${randomUUID()}`, body)
  })

  it('not by terms that would make an own award last longer', async () => {
    const own = await makeTestSetting(test.office)
    await putSheet(test.office, own.sheet())
    const clerk = await test.signedIn({ name: 'certified clerk', roles: ['office'], soldierId: own.candidateId })
    const [{ title, arms }] = (await test.sql<{ title: string; arms: string[] }>(
      'SELECT title, arms FROM certification WHERE code = $1',
      [own.certification],
    )) as [{ title: string; arms: string[] }]
    const terms = { code: own.certification, title, standards: [own.standard], arms, validityMonths: 60 }
    await clerk.refused(403, 'POST', '/api/certifications', { ...terms, effectiveFrom: '2026-02-01' })
    await clerk.post('/api/certifications', { ...terms, effectiveFrom: '2026-07-01' })
  })

  it('and an administrator does not change which soldier they are', async () => {
    const chief = await test.signedIn({
      name: 'chief',
      roles: ['administrator', 'office'],
      soldierId: setting.candidateId,
    })
    const [{ id }] = (await test.sql<{ id: string }>("SELECT id FROM account WHERE name = 'chief'")) as [{ id: string }]
    const body = { roles: ['administrator', 'office'], soldierId: null, unitId: null }
    expect((await chief.refused(403, 'PUT', `/api/accounts/${id}`, body)).type).toBe(
      'urn:reviewstand:problem:impartiality',
    )
  })
})

describe('a file sent by somebody who is in it', () => {
  const award = (number: string) => `${number},${setting.certification},2026-05-05,2027-01-01,Paper`
  it.each(['SELF', 'COACHED'])('is taken in without the row about %s', async (number) => {
    const importer = await makeImporter(test, 'partial', partial)
    const otherId = await makeSoldier(test.office, setting.unitId, { rosterNumber: `OTHER-${number}` })
    const before = await readStatuses(test.office, number === 'SELF' ? selfId : coachedId, '2026-06-15')
    const file = [
      'Roster number,Certification,Awarded on,Valid through,Evidence',
      award(number),
      award(`OTHER-${number}`),
    ]
    const checked = await importer.check(await importer.send(file.join('\n')))
    expect(checked).toMatchObject({ state: 'checked', counts: { added: 1, refused: 1 } })
    expect(await importer.store(checked, true)).toMatchObject({ state: 'stored', counts: { added: 1, refused: 1 } })
    expect(await readStatuses(test.office, number === 'SELF' ? selfId : coachedId, '2026-06-15')).toEqual(before)
    expect(await readStatuses(test.office, otherId, '2026-06-15')).toContainEqual(
      expect.objectContaining({ certification: setting.certification, status: 'certified' }),
    )
  })

  it('changes nothing of what the roster says about them', async () => {
    const importer = await makeImporter(test, 'partial', partial)
    const file = 'Roster number,Grade,From\nSELF,CPT,2026-06-01'
    expect(await importer.check(await importer.send(file))).toMatchObject({ counts: { changed: 0, refused: 1 } })
  })
})

describe('what is nobody’s own case goes on', () => {
  it('a grader’s tests of others, and, held, of whom they coach', async () => {
    const grader = await test.signedIn({ name: 'grader', roles: ['grader'], soldierId: setting.graderId })
    const other = await makeTestSetting(test.office, setting)
    expect(await putSheet(grader, other.sheet())).toMatchObject({ state: 'counted' })
    const own = setting.sheet({ candidateId: coachedId, graderId: selfId, ...NO_GO_MARKS, ...someDay() })
    const stored = await putSheet(partial, own)
    expect(stored).toMatchObject({ state: 'held' })
    expect(stored.violations.map(({ rule }) => rule)).toContain('grader-coached')
  })

  it('a sponsor’s practice of their candidates, and one’s own', async () => {
    for (const candidateId of [coachedId, selfId]) {
      const sheet = setting.sheet({ candidateId, graderId: selfId, purpose: 'practice', ...someDay() })
      expect(await putSheet(partial, sheet)).toMatchObject({ state: 'counted' })
    }
  })

  it('and all of it by another person of the office', async () => {
    const second = await secondPerson(test)
    const id = await held(coachedId)
    const decided = await second.post<StoredSheet>(
      `/api/sheets/${id}/decision`,
      { decision: 'reject', reason: 'No' },
      200,
    )
    expect(decided.state).toBe('rejected')
    expect((await test.office.get<SheetDetail>(`/api/sheets/${id}`)).decisions).toHaveLength(1)
  })
})
