import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { CeremonyDetail } from '../../../server/contract/ceremonies/ceremonies.ts'
import { buildTestApp, PASSWORD, type TestApp } from '../../support/build-test-app.ts'
import type { Client, Method } from '../../support/client.ts'
import { makeSoldier, makeTestSetting, makeUnit, practiceOf } from '../../support/factories.ts'
import { shortStandard, times } from '../../support/sheet-body.ts'

/** Every role, on an account of its own: leader and commander of platoon A, sponsor and grader of its candidate. */
const ROLES = ['office', 'administrator', 'commander', 'leader', 'sponsor', 'grader', 'soldier'] as const
type RoleName = (typeof ROLES)[number]

type Setting = Awaited<ReturnType<typeof makeTestSetting>>

interface World {
  /** What each role may see at most: the candidate of platoon A. */
  readonly inside: Setting & { readonly sheetId: string; readonly noteId: string; readonly practice: object }
  /** What only the office may see: a candidate of platoon B. */
  readonly outside: Setting & { readonly sheetId: string; readonly noteId: string; readonly practice: object }
  readonly ceremonyInside: string
  readonly postInside: string
  readonly testDay: string
  /** Of platoon B alone. */
  readonly testDayOutside: string
}

type Side = World['inside']
type Statuses = Partial<Record<RoleName, number>> & { readonly others: number }

interface Row {
  readonly route: string
  readonly path?: (side: Side, world: World) => string
  readonly body?: (side: Side, world: World) => unknown
  /** Expected for what lies inside the roles' scope. */
  readonly inside: Statuses
  /** Expected for what lies outside; left out where the route has no such side. */
  readonly outside?: Statuses
}

const office = (status: number): Statuses => ({ office: status, others: 403 })
const anyone: Statuses = { others: 200 }

const change = (route: string, body: (side: Side, world: World) => unknown, path?: Row['path']): Row => ({
  route,
  body,
  ...(path ? { path } : {}),
  inside: office(201),
  outside: office(201),
})

let numbered = 0
const days = () => `20${30 + (numbered++ % 60)}-01-01`

const plan = (side: Side) => ({
  title: 'Parade',
  unitId: side.unitId,
  startsAt: '2026-07-01T10:00:00Z',
  endsAt: '2026-07-01T11:00:00Z',
  posts: [{ title: 'Guide', row: 1, place: 1, certification: side.certification, soldierId: side.candidateId }],
})

const FINDINGS = [
  'measures',
  'trend',
  'readings',
  'pairs',
  'quality',
  'sponsors',
  'sponsor-funnel',
  'graders',
  'agreement',
  'forecast',
  'time-to-certify',
]

const TABLE: readonly Row[] = [
  { route: 'GET /api/session', inside: anyone },
  { route: 'GET /api/factor-rules', inside: { administrator: 200, others: 404 } },
  { route: 'PUT /api/factor-rules', body: () => ({ rules: [] }), inside: { administrator: 200, others: 404 } },
  { route: 'GET /api/imports', inside: office(200) },
  // What was not sent as a file is JSON of some layout, here of none.
  { route: 'POST /api/imports', body: () => ({}), inside: office(422) },
  ...['GET', 'DELETE'].map((method) => ({
    route: `${method} /api/imports/{id}`,
    path: () => `/api/imports/${randomUUID()}`,
    inside: office(404),
  })),
  ...['columns', 'check'].map((verb) => ({
    route: `POST /api/imports/{id}/${verb}`,
    path: () => `/api/imports/${randomUUID()}/${verb}`,
    body: () => ({ kind: 'roster' }),
    inside: office(404),
  })),
  ...['store', 'cancel'].map((verb) => ({
    route: `POST /api/imports/{id}/${verb}`,
    path: () => `/api/imports/${randomUUID()}/${verb}`,
    body: () => ({}),
    inside: office(404),
  })),
  ...['rows', 'refused'].map((part) => ({
    route: `GET /api/imports/{id}/${part}`,
    path: () => `/api/imports/${randomUUID()}/${part}`,
    inside: office(404),
  })),
  { route: 'GET /api/import-templates/{kind}', path: () => '/api/import-templates/roster', inside: office(200) },
  ...['', '/status'].map((part) => ({
    route: `GET /api/backups${part}`,
    inside: { administrator: 200, others: 403 },
  })),
  // No server process is around this app, so nothing can be begun.
  { route: 'POST /api/backups', inside: { administrator: 409, others: 403 } },
  { route: 'GET /api/account/mail', inside: anyone },
  {
    route: 'PUT /api/account/mail/address',
    body: () => ({ address: 'somebody@unit.example', password: PASSWORD }),
    inside: { others: 409 },
  },
  { route: 'DELETE /api/account/mail/address', inside: { others: 204 } },
  { route: 'POST /api/account/mail/code', inside: { others: 409 } },
  { route: 'POST /api/account/mail/confirm', body: () => ({ code: '00000000' }), inside: { others: 422 } },
  {
    route: 'PUT /api/account/mail/choices',
    body: () => ({ choices: [{ kind: 'lapses', timing: 'never' }] }),
    inside: { administrator: 422, others: 200 },
  },
  { route: 'GET /api/mail', inside: { administrator: 200, others: 403 } },
  { route: 'GET /api/mail/failures', inside: { administrator: 200, others: 403 } },
  { route: 'POST /api/mail/test', inside: { administrator: 409, others: 403 } },
  ...(['POST /api/mail/failures/{id}/retry', 'DELETE /api/mail/failures/{id}'] as const).map(
    (route): Row => ({
      route,
      path: () => route.split(' ')[1]!.replace('{id}', randomUUID()),
      inside: { administrator: 404, others: 403 },
    }),
  ),
  {
    route: 'GET /api/backups/{name}/file',
    path: () => '/api/backups/reviewstand-2026-11-25T13-20-00Z.tar.gz/file',
    inside: { administrator: 404, others: 403 },
  },
  { route: 'GET /api/push', inside: anyone },
  {
    route: 'PUT /api/push',
    body: () => ({ isOn: false, contact: 'mailto:office@unit.example' }),
    inside: { administrator: 200, others: 403 },
  },
  // No server process is around this app, so nothing can be sent.
  {
    route: 'PUT /api/account/push',
    body: () => ({
      endpoint: 'https://push.example.org/one',
      keys: { p256dh: `B${'A'.repeat(86)}`, auth: 'A'.repeat(22) },
    }),
    inside: { others: 409 },
  },
  { route: 'DELETE /api/account/push', inside: { others: 204 } },
  { route: 'GET /api/units', inside: anyone },
  change('POST /api/units', () => ({ name: 'New', kind: 'platoon' })),
  {
    route: 'PATCH /api/units/{id}',
    path: (side) => `/api/units/${side.unitId}`,
    body: () => ({ kind: 'platoon' }),
    inside: office(200),
    outside: office(200),
  },
  { route: 'DELETE /api/units/{id}', path: () => `/api/units/${randomUUID()}`, inside: office(404) },
  { route: 'GET /api/unit-levels', inside: anyone },
  // Of a version that never was, so that nothing is changed for the rows after it.
  {
    route: 'PUT /api/unit-levels',
    body: () => ({ levels: [{ code: 'team', one: 'team', many: 'teams', compared: true }], version: 'none' }),
    inside: office(409),
  },
  {
    route: 'GET /api/units/{id}/move',
    path: () => `/api/units/${randomUUID()}/move?from=2026-06-01`,
    inside: office(404),
  },
  {
    route: 'POST /api/units/{id}/move',
    path: () => `/api/units/${randomUUID()}/move`,
    body: () => ({ parentId: null, from: '2026-06-01' }),
    inside: office(404),
  },
  {
    route: 'PUT /api/unit-order',
    body: () => ({ parentId: randomUUID(), ids: [randomUUID()] }),
    inside: office(409),
  },
  { route: 'GET /api/first-steps', inside: office(200) },
  {
    route: 'PUT /api/first-steps/{step}',
    path: () => '/api/first-steps/units',
    body: () => ({ skipped: false }),
    inside: office(200),
  },
  { route: 'GET /api/arms-and-grades', inside: anyone },
  { route: 'GET /api/arms-and-grades/use', inside: anyone },
  // Of a version that never was, so that nothing is changed for the rows after it.
  {
    route: 'PUT /api/arms-and-grades',
    body: () => ({ grades: [], arms: [], version: 'none' }),
    inside: office(409),
  },
  { route: 'GET /api/search', path: () => '/api/search?q=ashford', inside: anyone },
  { route: 'GET /api/soldiers', inside: anyone },
  {
    route: 'GET /api/soldiers',
    path: (side) => `/api/soldiers?unitId=${side.unitId}`,
    inside: { others: 200 },
    outside: { office: 200, administrator: 200, others: 404 },
  },
  { route: 'GET /api/soldiers/count', inside: anyone },
  {
    route: 'GET /api/soldiers/count',
    path: (side) => `/api/soldiers/count?unitId=${side.unitId}`,
    inside: { others: 200 },
    outside: { office: 200, administrator: 200, others: 404 },
  },
  {
    route: 'GET /api/roster.csv',
    path: (side) => `/api/roster.csv?asOf=tomorrow&unitId=${side.unitId}`,
    inside: { others: 200 },
    outside: { office: 200, administrator: 200, others: 404 },
  },
  change('POST /api/soldiers', (side) => ({
    rosterNumber: `N${numbered++}`,
    familyName: 'Ashford',
    givenName: 'New',
    grade: 'SGT',
    unitId: side.unitId,
    from: '2026-01-01',
  })),
  {
    route: 'GET /api/soldiers/{id}',
    path: (side) => `/api/soldiers/${side.candidateId}`,
    inside: { administrator: 404, others: 200 },
    outside: { office: 200, others: 404 },
  },
  {
    // Empty for graders, who are to judge them.
    route: 'GET /api/soldiers/{id}/forecasts',
    path: (side) => `/api/soldiers/${side.candidateId}/forecasts`,
    inside: { administrator: 404, others: 200 },
    outside: { office: 200, others: 404 },
  },
  {
    // A candidate's own faults are not for who is to grade them.
    route: 'GET /api/study/{standard}',
    path: (side) => `/api/study/${side.standard}?candidateId=${side.candidateId}`,
    inside: { administrator: 404, grader: 404, others: 200 },
    outside: { office: 200, others: 404 },
  },
  {
    // Out of scope: left out of the list.
    route: 'GET /api/forecasts',
    path: (side) => `/api/forecasts?tests=${side.candidateId}:${side.standard}`,
    inside: anyone,
    outside: anyone,
  },
  {
    route: 'GET /api/soldiers/{id}/extract',
    path: (side) => `/api/soldiers/${side.candidateId}/extract`,
    inside: { office: 200, soldier: 200, others: 404 },
    outside: { office: 200, others: 404 },
  },
  {
    route: 'GET /api/soldiers/{id}/certificate',
    path: (side) => `/api/soldiers/${side.candidateId}/certificate?certification=none`,
    // Nobody is certified in what is not there.
    inside: { office: 409, soldier: 409, others: 404 },
    outside: { office: 409, others: 404 },
  },
  { route: 'GET /api/certificates/{number}', path: () => `/api/certificates/${randomUUID()}`, inside: office(404) },
  {
    route: 'GET /api/soldiers/{id}/status',
    path: (side) => `/api/soldiers/${side.candidateId}/status`,
    inside: { administrator: 404, others: 200 },
    outside: { office: 200, others: 404 },
  },
  {
    route: 'GET /api/soldiers/{id}/as-known',
    path: (side) => `/api/soldiers/${side.candidateId}/as-known?on=2026-06-01`,
    inside: { administrator: 403, grader: 403, others: 200 },
    outside: { office: 200, administrator: 403, grader: 403, others: 404 },
  },
  {
    route: 'POST /api/soldiers/{id}/changes',
    path: (side) => `/api/soldiers/${side.candidateId}/changes`,
    body: () => ({ from: '2026-06-01', grade: 'SSG' }),
    inside: office(200),
    outside: office(200),
  },
  {
    route: 'PUT /api/soldiers/{id}',
    path: () => `/api/soldiers/${randomUUID()}`,
    body: () => ({ rosterNumber: `C${numbered++}`, familyName: 'Ashford', givenName: 'Ada', reason: 'Misspelt' }),
    inside: office(404),
  },
  {
    route: 'GET /api/soldiers/{id}/changes',
    path: (side) => `/api/soldiers/${side.candidateId}/changes`,
    inside: { administrator: 404, others: 200 },
    outside: { office: 200, others: 404 },
  },
  {
    route: 'PUT /api/soldiers/{id}/changes/{change}',
    path: (side) => `/api/soldiers/${side.candidateId}/changes/999999`,
    body: () => ({ from: '2026-06-01', grade: 'SSG', reason: 'Misread' }),
    inside: office(404),
    outside: office(404),
  },
  {
    route: 'POST /api/soldiers/{id}/changes/{change}/remove',
    path: (side) => `/api/soldiers/${side.candidateId}/changes/999999/remove`,
    body: () => ({ reason: 'Misread' }),
    inside: office(404),
    outside: office(404),
  },
  { route: 'GET /api/merges', inside: office(200) },
  {
    route: 'GET /api/soldiers/{id}/removal',
    path: (side) => `/api/soldiers/${side.candidateId}/removal`,
    inside: office(200),
    outside: office(200),
  },
  {
    route: 'POST /api/soldiers/{id}/removal',
    path: (side) => `/api/soldiers/${side.candidateId}/removal`,
    body: () => ({ reason: 'Time is over', confirmation: 'x' }),
    inside: office(409),
    outside: office(409),
  },
  {
    route: 'POST /api/soldiers/{id}/merges/preview',
    path: (side) => `/api/soldiers/${side.candidateId}/merges/preview`,
    body: (side) => ({ awayId: side.sponsorId }),
    inside: office(200),
    outside: office(200),
  },
  {
    route: 'POST /api/soldiers/{id}/merges',
    path: (side) => `/api/soldiers/${side.candidateId}/merges`,
    body: (side) => ({ awayId: side.sponsorId, reason: 'Entered twice' }),
    inside: office(409),
    outside: office(409),
  },
  {
    route: 'POST /api/merges/{id}/undo',
    path: () => `/api/merges/${randomUUID()}/undo`,
    body: () => ({ reason: 'Two people' }),
    inside: office(404),
  },
  { route: 'GET /api/absences', inside: anyone },
  {
    route: 'GET /api/absences',
    path: (side) => `/api/absences?unitId=${side.unitId}`,
    inside: { administrator: 404, others: 200 },
    outside: { office: 200, others: 404 },
  },
  {
    route: 'GET /api/soldiers/{id}/absences',
    path: (side) => `/api/soldiers/${side.candidateId}/absences`,
    inside: { administrator: 404, others: 200 },
    outside: { office: 200, others: 404 },
  },
  change(
    'POST /api/soldiers/{id}/absences',
    () => ({ from: '2026-08-01', through: '2026-08-14', kind: 'leave' }),
    (side) => `/api/soldiers/${side.candidateId}/absences`,
  ),
  {
    route: 'PUT /api/absences/{id}',
    path: () => `/api/absences/${randomUUID()}`,
    body: () => ({ from: '2026-06-01', kind: 'course' }),
    inside: office(404),
  },
  { route: 'DELETE /api/absences/{id}', path: () => `/api/absences/${randomUUID()}`, inside: office(404) },
  change(
    'POST /api/soldiers/{id}/sponsorships',
    (side) => ({ sponsorId: side.graderId, from: '2019-01-01', to: '2019-02-01' }),
    (side) => `/api/soldiers/${side.candidateId}/sponsorships`,
  ),
  {
    route: 'POST /api/soldiers/{id}/sponsorships/{sponsorship}/end',
    path: (side) => `/api/soldiers/${side.candidateId}/sponsorships/${randomUUID()}/end`,
    body: () => ({ on: '2026-06-15' }),
    inside: office(404),
  },
  { route: 'GET /api/coaching', inside: { sponsor: 200, others: 403 } },
  {
    route: 'GET /api/soldiers/{id}/coaching',
    path: (side) => `/api/soldiers/${side.candidateId}/coaching`,
    inside: { administrator: 404, grader: 404, others: 200 },
    outside: { office: 200, others: 404 },
  },
  {
    route: 'GET /api/soldiers/{id}/coaching-notes',
    path: (side) => `/api/soldiers/${side.candidateId}/coaching-notes`,
    inside: { administrator: 404, grader: 404, others: 200 },
    outside: { office: 200, others: 404 },
  },
  {
    route: 'POST /api/soldiers/{id}/coaching-notes',
    path: (side) => `/api/soldiers/${side.candidateId}/coaching-notes`,
    body: (side) => ({ on: '2026-06-14', standard: side.standard, text: 'Slower on the halt' }),
    inside: { office: 201, sponsor: 201, others: 403 },
    outside: { office: 201, sponsor: 404, others: 403 },
  },
  {
    route: 'PUT /api/coaching-notes/{id}',
    path: (side) => `/api/coaching-notes/${side.noteId}`,
    body: (side) => ({ on: '2026-06-14', standard: side.standard, text: 'Slower on the halt' }),
    // Written by another account of the office: only its author changes it.
    inside: { others: 403 },
    outside: { sponsor: 404, others: 403 },
  },
  {
    route: 'POST /api/coaching-notes/{id}/remove',
    path: () => `/api/coaching-notes/${randomUUID()}/remove`,
    inside: { office: 404, sponsor: 404, others: 403 },
  },
  {
    route: 'POST /api/coaching-notes/{id}/restore',
    path: (side) => `/api/coaching-notes/${side.noteId}/restore`,
    inside: { office: 200, others: 403 },
    outside: { office: 200, sponsor: 404, others: 403 },
  },
  {
    route: 'GET /api/soldiers/{id}/practices',
    path: (side) => `/api/soldiers/${side.candidateId}/practices`,
    inside: { administrator: 404, grader: 404, others: 200 },
    outside: { office: 200, others: 404 },
  },
  {
    route: 'PUT /api/practices/{id}',
    path: () => `/api/practices/${randomUUID()}`,
    body: (side) => practiceOf(side.candidateId, side.standard),
    inside: { office: 201, sponsor: 201, others: 403 },
    outside: { office: 201, sponsor: 404, others: 403 },
  },
  {
    route: 'DELETE /api/practices/{id}',
    path: () => `/api/practices/${randomUUID()}`,
    inside: { office: 404, sponsor: 404, others: 403 },
  },
  change(
    'POST /api/soldiers/{id}/appointments',
    (side) => ({ standard: side.standard, from: '2019-01-01', to: '2019-02-01' }),
    (side) => `/api/soldiers/${side.candidateId}/appointments`,
  ),
  change(
    'POST /api/soldiers/{id}/reviews',
    (side) => ({ standard: side.standard, on: '2026-01-01' }),
    (side) => `/api/soldiers/${side.candidateId}/reviews`,
  ),
  change(
    'POST /api/soldiers/{id}/withdrawals',
    (side) => ({ certification: side.certification, on: '2019-01-01', reason: 'Moved on' }),
    (side) => `/api/soldiers/${side.candidateId}/withdrawals`,
  ),
  change(
    'POST /api/soldiers/{id}/awards',
    (side) => ({
      certification: side.certification,
      awardedOn: '2019-01-01',
      validThrough: '2019-12-31',
      evidence: 'Paper',
    }),
    (side) => `/api/soldiers/${side.candidateId}/awards`,
  ),
  {
    route: 'POST /api/suspensions',
    body: (side) => ({
      soldierId: side.candidateId,
      certification: side.certification,
      from: '2026-06-01',
      reason: 'Rest',
    }),
    inside: { office: 201, commander: 201, others: 403 },
    outside: { office: 201, commander: 422, others: 403 },
  },
  {
    route: 'POST /api/suspensions/{id}/lift',
    path: () => `/api/suspensions/${randomUUID()}/lift`,
    body: () => ({ on: '2026-06-01', reason: 'Rested' }),
    inside: { office: 404, commander: 404, others: 403 },
  },
  {
    route: 'GET /api/approvals',
    path: (side) => `/api/approvals?unitId=${side.unitId}`,
    inside: { office: 200, leader: 200, commander: 200, others: 403 },
    outside: { office: 200, leader: 404, commander: 404, others: 403 },
  },
  {
    route: 'POST /api/approvals',
    body: (side) => ({
      decision: 'approve',
      items: [{ certification: side.certification, sheetId: side.sheetId }],
    }),
    // Nothing waits by the terms of the table.
    inside: { commander: 409, others: 403 },
    outside: { commander: 404, others: 403 },
  },
  {
    route: 'POST /api/approvals/{id}/take-back',
    path: () => `/api/approvals/${randomUUID()}/take-back`,
    body: () => ({ reason: 'Misread' }),
    inside: { commander: 404, others: 403 },
  },
  {
    route: 'GET /api/soldiers/{id}/commanders-words',
    path: (side) => `/api/soldiers/${side.candidateId}/commanders-words`,
    inside: { administrator: 404, others: 200 },
    outside: { office: 200, others: 404 },
  },
  {
    route: 'POST /api/extensions',
    body: (side) => ({
      soldierId: side.candidateId,
      certification: side.certification,
      days: 5,
      kind: 'injury',
      reason: 'Knee',
    }),
    // Certified, by terms that allow no day.
    inside: { commander: 422, others: 403 },
    outside: { commander: 404, others: 403 },
  },
  {
    route: 'POST /api/extensions/{id}/take-back',
    path: () => `/api/extensions/${randomUUID()}/take-back`,
    body: () => ({ reason: 'Misread' }),
    inside: { commander: 404, others: 403 },
  },
  { route: 'GET /api/standards', inside: anyone },
  { route: 'GET /api/standards/beginnings', inside: office(200) },
  change('POST /api/standards', () => shortStandard({ code: `standard-of-table-${numbered++}` })),
  { route: 'GET /api/standards/{id}', path: () => `/api/standards/${randomUUID()}`, inside: { others: 404 } },
  {
    route: 'POST /api/standards/{id}/publish',
    path: () => `/api/standards/${randomUUID()}/publish`,
    inside: { office: 404, others: 403 },
  },
  {
    route: 'PUT /api/standards/{id}',
    path: () => `/api/standards/${randomUUID()}`,
    body: () => shortStandard({ code: 'none' }),
    inside: office(404),
  },
  { route: 'DELETE /api/standards/{id}', path: () => `/api/standards/${randomUUID()}`, inside: office(404) },
  {
    route: 'GET /api/standards/{id}/comparison',
    path: () => `/api/standards/${randomUUID()}/comparison`,
    inside: { others: 404 },
  },
  {
    route: 'POST /api/standards/{id}/effect',
    path: () => `/api/standards/${randomUUID()}/effect`,
    body: () => ({}),
    inside: office(404),
  },
  {
    route: 'GET /api/certifications/{id}/terms',
    path: () => `/api/certifications/${randomUUID()}/terms`,
    inside: { others: 404 },
  },
  {
    route: 'POST /api/certifications/effect',
    body: (side) => ({
      terms: { code: 'of-effect', title: 'None', standards: [side.standard], effectiveFrom: '2020-01-01' },
    }),
    inside: office(200),
  },
  {
    route: 'GET /api/requirements',
    path: (side) => `/api/requirements?unitId=${side.unitId}`,
    inside: { administrator: 404, others: 200 },
    outside: { office: 200, others: 404 },
  },
  { route: 'GET /api/certifications', inside: anyone },
  change('POST /api/certifications', (side) => ({
    code: `of-table-${numbered++}`,
    title: 'Of the table',
    standards: [side.standard],
    effectiveFrom: '2020-01-01',
  })),
  {
    route: 'GET /api/readiness',
    path: (side) => `/api/readiness?unitId=${side.unitId}`,
    inside: { administrator: 404, others: 200 },
    outside: { office: 200, others: 404 },
  },
  {
    route: 'GET /api/retests',
    path: (side) => `/api/retests?unitId=${side.unitId}`,
    inside: { administrator: 404, others: 200 },
    outside: { office: 200, others: 404 },
  },
  ...['readiness/units', 'readiness/trend', 'readiness/lapses', 'suspensions'].map(
    (name): Row => ({
      route: `GET /api/${name}`,
      path: (side) => `/api/${name}?unitId=${side.unitId}`,
      inside: { administrator: 404, others: 200 },
      outside: { office: 200, others: 404 },
    }),
  ),
  ...['', '/dates', '/past', '/what-if'].map(
    (what): Row => ({
      route: `GET /api/readiness/forecast${what}`,
      path: (side) =>
        `/api/readiness/forecast${what}?unitId=${side.unitId}${what === '/dates' ? '' : `&certification=${side.certification}`}${what === '' || what === '/what-if' ? '&on=2026-12-31' : ''}`,
      inside: { office: 200, leader: 200, commander: 200, others: 403 },
      outside: { office: 200, leader: 404, commander: 404, others: 403 },
    }),
  ),
  {
    route: 'GET /api/ceremonies/{id}/proposal',
    path: (_, world) => `/api/ceremonies/${world.ceremonyInside}/proposal`,
    inside: { office: 200, leader: 200, commander: 200, others: 403 },
  },
  { route: 'GET /api/sheets', inside: anyone },
  {
    route: 'GET /api/ceremonies/{id}/asks',
    path: (_, world) => `/api/ceremonies/${world.ceremonyInside}/asks`,
    inside: { office: 200, leader: 200, commander: 200, others: 403 },
  },
  {
    route: 'POST /api/ceremonies/{id}/asks',
    path: (_, world) => `/api/ceremonies/${world.ceremonyInside}/asks`,
    body: (_, world) => ({ postId: world.postInside, unitId: randomUUID() }),
    inside: { office: 404, leader: 404, commander: 404, others: 403 },
  },
  { route: 'GET /api/asks', inside: { office: 200, leader: 200, commander: 200, others: 403 } },
  {
    route: 'GET /api/asks/{id}/candidates',
    path: () => `/api/asks/${randomUUID()}/candidates`,
    inside: { office: 404, leader: 404, commander: 404, others: 403 },
  },
  {
    route: 'POST /api/asks/{id}/answer',
    path: () => `/api/asks/${randomUUID()}/answer`,
    body: () => ({ answer: 'no', word: 'On leave' }),
    inside: { office: 404, leader: 404, commander: 404, others: 403 },
  },
  {
    route: 'POST /api/asks/{id}/take-back',
    path: () => `/api/asks/${randomUUID()}/take-back`,
    inside: { office: 404, leader: 404, commander: 404, others: 403 },
  },
  {
    route: 'GET /api/sheets/{id}',
    path: (side) => `/api/sheets/${side.sheetId}`,
    inside: { administrator: 404, others: 200 },
    outside: { office: 200, others: 404 },
  },
  {
    route: 'POST /api/sheets/score',
    body: (side) => side.practice,
    inside: { office: 200, sponsor: 200, others: 403 },
    outside: { office: 200, sponsor: 403, others: 403 },
  },
  {
    route: 'PUT /api/sheets/{id}',
    path: () => `/api/sheets/${randomUUID()}`,
    body: (side) => side.practice,
    inside: { office: 201, sponsor: 201, others: 403 },
    outside: { office: 201, others: 403 },
  },
  {
    route: 'POST /api/sheets/{id}/decision',
    path: (side) => `/api/sheets/${side.sheetId}/decision`,
    body: () => ({ decision: 'count', reason: 'Seen' }),
    inside: office(409),
    outside: office(409),
  },
  {
    route: 'POST /api/sheets/{id}/amendments',
    path: () => `/api/sheets/${randomUUID()}/amendments`,
    body: (side) => ({ reason: 'Misread', sheet: side.practice }),
    inside: office(404),
  },
  { route: 'GET /api/amendments', inside: { office: 200, commander: 200, others: 403 } },
  {
    route: 'POST /api/amendments/{id}/decision',
    path: () => `/api/amendments/${randomUUID()}/decision`,
    body: () => ({ decision: 'refuse', reason: 'No' }),
    inside: { office: 404, commander: 404, others: 403 },
  },
  {
    route: 'POST /api/sheets/{id}/appeals',
    path: (side) => `/api/sheets/${side.sheetId}/appeals`,
    body: () => ({ reason: 'The trial was read wrongly' }),
    inside: { administrator: 404, sponsor: 201, soldier: 409, others: 403 },
    outside: { office: 403, others: 404 },
  },
  { route: 'GET /api/appeals', inside: anyone },
  {
    route: 'POST /api/appeals/{id}/decision',
    path: () => `/api/appeals/${randomUUID()}/decision`,
    body: () => ({ decision: 'dismiss', reason: 'Read rightly' }),
    inside: office(404),
  },
  { route: 'GET /api/ceremonies', inside: anyone },
  {
    route: 'POST /api/ceremonies',
    body: plan,
    inside: { office: 201, leader: 201, commander: 201, others: 403 },
    outside: { office: 201, leader: 422, commander: 422, others: 403 },
  },
  {
    route: 'GET /api/ceremonies/{id}',
    path: (_side, world) => `/api/ceremonies/${world.ceremonyInside}`,
    inside: { administrator: 404, others: 200 },
  },
  {
    route: 'PUT /api/ceremonies/{id}',
    path: (_side, world) => `/api/ceremonies/${world.ceremonyInside}`,
    body: (side) => ({ ...plan(side), version: 1_000_000 }),
    inside: { office: 409, leader: 409, commander: 409, others: 403 },
  },
  {
    route: 'POST /api/ceremonies/{id}/name',
    path: (_side, world) => `/api/ceremonies/${world.ceremonyInside}/name`,
    body: (side) => ({ version: 1_000_000, names: [{ postId: side.candidateId, soldierId: null }] }),
    inside: { office: 409, leader: 409, commander: 409, others: 403 },
  },
  {
    route: 'PUT /api/ceremonies/{id}/alternates',
    path: (_side, world) => `/api/ceremonies/${world.ceremonyInside}/alternates`,
    body: () => ({ version: 1_000_000, alternates: [] }),
    inside: { office: 409, leader: 409, commander: 409, others: 403 },
  },
  {
    route: 'POST /api/ceremonies/{id}/cancel',
    path: (_side, world) => `/api/ceremonies/${world.ceremonyInside}/cancel`,
    body: () => ({ version: 1_000_000, reason: 'Storm' }),
    inside: { office: 409, leader: 409, commander: 409, others: 403 },
  },
  {
    route: 'GET /api/ceremonies/{id}/outlook',
    path: (side, world) => `/api/ceremonies/${world.ceremonyInside}/outlook?unitId=${side.unitId}`,
    inside: { administrator: 404, others: 200 },
    outside: { office: 200, others: 404 },
  },
  {
    route: 'GET /api/outlooks',
    path: (side) => `/api/outlooks?unitId=${side.unitId}`,
    inside: { administrator: 404, others: 200 },
    outside: { office: 200, others: 404 },
  },
  {
    route: 'GET /api/ceremonies/{id}/posts/{postId}/candidates',
    path: (_side, world) => `/api/ceremonies/${world.ceremonyInside}/posts/${world.postInside}/candidates`,
    inside: { office: 200, leader: 200, commander: 200, others: 403 },
  },
  {
    route: 'PUT /api/soldiers/{id}/height',
    path: (side) => `/api/soldiers/${side.candidateId}/height`,
    body: () => ({ heightCm: 178 }),
    inside: { office: 200, leader: 200, commander: 200, others: 403 },
    outside: { office: 200, leader: 404, commander: 404, others: 403 },
  },
  { route: 'GET /api/test-days', inside: anyone },
  { route: 'GET /api/test-days.ics', inside: anyone },
  change('POST /api/test-days', (side) => ({ on: days(), unitId: side.unitId })),
  {
    route: 'POST /api/test-days/{id}/bookings',
    path: () => `/api/test-days/${randomUUID()}/bookings`,
    body: (side) => ({ candidateId: side.candidateId, standard: side.standard }),
    inside: office(404),
  },
  { route: 'GET /api/bookings', inside: anyone },
  { route: 'GET /api/day-list', inside: anyone },
  {
    // Whom a grader tested without a booking may be anybody, but only who knows the name with the number is told.
    route: 'POST /api/soldiers/identify',
    body: () => ({ rosterNumber: 'no such', familyName: 'Ashford', on: '2026-06-15' }),
    inside: { office: 404, grader: 404, others: 403 },
  },
  { route: 'GET /api/notices', inside: anyone },
  { route: 'GET /api/notices/unread', inside: anyone },
  { route: 'POST /api/notices/read', body: () => ({}), inside: anyone },
  ...['/api/retests/backlog', '/api/kept-gos'].flatMap((path): Row[] => [
    { route: `GET ${path}`, inside: anyone },
    {
      route: `GET ${path}`,
      path: (side) => `${path}?unitId=${side.unitId}`,
      inside: { administrator: 404, others: 200 },
      outside: { office: 200, others: 404 },
    },
  ]),
  {
    route: 'POST /api/soldiers/{id}/due-days',
    path: (side) => `/api/soldiers/${side.candidateId}/due-days`,
    body: (side) => ({
      certification: side.certification,
      standard: side.standard,
      due: '2026-08-01',
      reason: 'On leave',
    }),
    inside: office(409),
    outside: office(409),
  },
  { route: 'GET /api/slots', inside: anyone },
  {
    route: 'GET /api/slots',
    path: (side) => `/api/slots?unitId=${side.unitId}`,
    inside: { administrator: 404, others: 200 },
    outside: { office: 200, others: 404 },
  },
  {
    route: 'GET /api/test-days/{id}',
    path: (side, world) => `/api/test-days/${side === world.inside ? world.testDay : world.testDayOutside}`,
    inside: { administrator: 404, others: 200 },
    outside: { office: 200, others: 404 },
  },
  ...[
    ['PATCH /api/test-days/{id}', { place: 'Drill hall' }] as const,
    ['POST /api/test-days/{id}/slots', { from: '08:00', to: '09:00', minutes: 30 }] as const,
    ['GET /api/test-days/{id}/call-off-plan', undefined] as const,
    ['POST /api/test-days/{id}/call-off', { reason: 'Storm' }] as const,
    ['PATCH /api/slots/{id}', { graderId: null }] as const,
    ['DELETE /api/slots/{id}', undefined] as const,
    ['POST /api/bookings/{id}/cancel', { reason: 'Storm' }] as const,
    ['POST /api/bookings/{id}/move', { testDayId: randomUUID(), slotId: null }] as const,
  ].map(
    ([route, body]): Row => ({
      route,
      path: () => route.split(' ')[1]!.replace('{id}', randomUUID()),
      body: () => body,
      inside: office(404),
    }),
  ),
  {
    route: 'POST /api/bookings/{id}/mark',
    path: () => `/api/bookings/${randomUUID()}/mark`,
    body: () => ({ state: 'checked in' }),
    inside: { office: 404, grader: 404, others: 403 },
  },
  {
    route: 'PUT /api/test-days/{id}/walk-ins/{bookingId}',
    path: (side, world) =>
      `/api/test-days/${side === world.inside ? world.testDay : world.testDayOutside}/walk-ins/${randomUUID()}`,
    body: (side) => ({
      rosterNumber: 'nobody',
      familyName: 'Nobody',
      standard: side.standard,
      found: { uniform: true, equipment: true, sponsorPresent: true },
    }),
    inside: { grader: 404, others: 403 },
  },
  { route: 'GET /api/second-gradings', inside: office(200) },
  { route: 'GET /api/duplicates', inside: office(200) },
  {
    route: 'POST /api/plans',
    body: (side) => ({ kind: 'retests', unitId: side.unitId, from: '2026-06-15', to: '2026-07-15' }),
    inside: office(202),
    outside: office(202),
  },
  ...[
    ['GET /api/plans/{id}', undefined] as const,
    ['GET /api/plans/{id}/problem', undefined] as const,
    ['GET /api/plans/{id}/answer', undefined] as const,
    ['GET /api/plans/{id}/retests', undefined] as const,
    ['POST /api/plans/{id}/accept', { pairs: 'all' }] as const,
    ['POST /api/plans/{id}/undo', undefined] as const,
    ['POST /api/plans/{id}/stop', undefined] as const,
  ].map(
    ([route, body]): Row => ({
      route,
      path: () => route.split(' ')[1]!.replace('{id}', randomUUID()),
      body: () => body,
      inside: { others: 404 },
    }),
  ),
  {
    route: 'POST /api/bookings/plan',
    body: (side, world) => ({
      testDayIds: [world.testDay],
      wanted: [{ candidateId: side.candidateId, standard: side.standard }],
    }),
    inside: office(200),
    outside: office(200),
  },
  {
    route: 'POST /api/bookings/bulk',
    body: (side) => ({
      bookings: [{ candidateId: side.candidateId, standard: side.standard, slotId: randomUUID() }],
    }),
    inside: office(422),
  },
  {
    route: 'GET /api/test-days/{id}/line',
    path: (side, world) => `/api/test-days/${side === world.inside ? world.testDay : world.testDayOutside}/line`,
    inside: { administrator: 404, others: 200 },
    outside: { office: 200, others: 404 },
  },
  {
    route: 'POST /api/bookings/{id}/second-grader',
    path: () => `/api/bookings/${randomUUID()}/second-grader`,
    body: (side) => ({ graderId: side.graderId }),
    inside: office(404),
  },
  {
    route: 'PUT /api/running-tests/{id}',
    path: () => `/api/running-tests/${randomUUID()}`,
    body: (side, world) => ({
      testDayId: world.testDay,
      candidateId: side.candidateId,
      standard: side.standard,
      graderId: side.graderId,
      startedAt: '2026-06-15T11:00:00Z',
      state: 'running',
      calls: 9,
      callsDone: 1,
      go: 0,
      noGo: 0,
    }),
    inside: office(204),
  },
  {
    route: 'DELETE /api/running-tests/{id}',
    path: () => `/api/running-tests/${randomUUID()}`,
    inside: { office: 204, grader: 204, others: 403 },
  },
  ...FINDINGS.map(
    (name): Row => ({
      route: `GET /api/findings/${name}`,
      path: (side) => `/api/findings/${name}?unitId=${side.unitId}&standard=${side.standard}`,
      inside: { office: 200, leader: 200, commander: 200, sponsor: 200, others: 403 },
      outside: { office: 200, leader: 404, commander: 404, sponsor: 404, others: 403 },
    }),
  ),
  {
    route: 'GET /api/findings/sponsor-measures',
    path: (side) => `/api/findings/sponsor-measures?unitId=${side.unitId}&sponsorId=${side.sponsorId}`,
    inside: { office: 200, leader: 200, commander: 200, sponsor: 200, others: 403 },
    outside: { office: 200, leader: 404, commander: 404, sponsor: 404, others: 403 },
  },
  {
    route: 'GET /api/findings/voids',
    path: (side) => `/api/findings/voids?unitId=${side.unitId}`,
    inside: { office: 200, leader: 200, commander: 200, sponsor: 200, others: 403 },
    outside: { office: 200, leader: 404, commander: 404, sponsor: 404, others: 403 },
  },
  { route: 'GET /api/record', inside: { administrator: 200, others: 403 } },
  { route: 'GET /api/record/verification', inside: { administrator: 200, others: 403 } },
  { route: 'GET /api/sign-on-providers', inside: { administrator: 200, others: 404 } },
  {
    route: 'PUT /api/sign-on-providers/{id}',
    path: () => `/api/sign-on-providers/${randomUUID()}`,
    // Without TLS, so that nothing is stored.
    body: () => ({
      ...{ name: 'Directory', issuer: 'http://login.example.org', clientId: 'a', scopes: 'openid', enabled: true },
      ...{ makesAccounts: false, rulesEachTime: false, makesAdministrators: false },
      ...{ nameClaim: 'name', soldierClaim: null, rules: [] },
    }),
    inside: { administrator: 422, others: 404 },
  },
  {
    route: 'POST /api/sign-on-providers/{id}/test',
    path: () => `/api/sign-on-providers/${randomUUID()}/test`,
    inside: { others: 404 },
  },
  {
    route: 'POST /api/sign-on-providers/trial',
    body: () => ({ sample: '{}', makesAdministrators: false, nameClaim: 'name', soldierClaim: null, rules: [] }),
    inside: { administrator: 200, others: 404 },
  },
  {
    route: 'PUT /api/sign-on-providers/page',
    body: () => ({ foldsPasswords: false }),
    inside: { administrator: 200, others: 404 },
  },
]

/** Answer without a session, or are about one's own account; they have tests of their own. */
const ELSEWHERE = [
  // A stream, refused as the line itself is: tests/api/test-days/test-day-line.test.ts.
  /^GET \/api\/test-days\/\{id\}\/line\/changes$/,
  /^\w+ \/api\/(health|openapi\.json|setup|account|accounts|invitations?|welcome)\b/,
  /^(POST|DELETE) \/api\/session/,
  /^\w+ \/api\/sign-on\//,
  /^POST \/api\/certificates\/verify$/,
]

let test: TestApp
let world: World
const clients = {} as Record<RoleName, Client>

async function side(office: Client, unitId: string): Promise<Side> {
  const setting = await makeTestSetting(office)
  for (const id of [setting.candidateId, setting.sponsorId, setting.graderId]) {
    await office.post(`/api/soldiers/${id}/changes`, { from: '2020-01-02', unitId }, 200)
  }
  const sheetId = randomUUID()
  await office.put(`/api/sheets/${sheetId}`, setting.sheet(times('2026-06-10')))
  const practice = { ...setting.sheet(times('2026-06-11')), purpose: 'practice', graderId: setting.sponsorId }
  const note = { on: '2026-06-11', standard: setting.standard, text: 'Hold the halt' }
  const { id: noteId } = await office.post(`/api/soldiers/${setting.candidateId}/coaching-notes`, note)
  return { ...setting, unitId, sheetId, noteId, practice }
}

beforeAll(async () => {
  test = await buildTestApp({ now: '2026-06-15T12:00:00Z' })
  const top = await makeUnit(test.office, { name: 'Battalion' })
  const [platoonA, platoonB] = [
    await makeUnit(test.office, { kind: 'platoon', parentId: top }),
    await makeUnit(test.office, { kind: 'platoon', parentId: top }),
  ]
  const inside = await side(test.office, platoonA)
  const outside = await side(test.office, platoonB)
  const testDay = (await test.office.post('/api/test-days', { on: '2026-06-20', unitId: top })).id
  const testDayOutside = (await test.office.post('/api/test-days', { on: '2026-06-20', unitId: platoonB })).id
  const graderOfA = await makeSoldier(test.office, top, { from: '2020-01-01' })
  const { candidateId, standard } = inside
  await test.office.post(`/api/test-days/${testDay}/bookings`, { candidateId, standard, graderId: graderOfA })
  const ceremony = await test.office.post('/api/ceremonies', {
    title: 'Parade of A',
    unitId: platoonA,
    startsAt: '2026-07-01T10:00:00Z',
    endsAt: '2026-07-01T11:00:00Z',
    posts: [{ title: 'Guide', row: 1, place: 1, certification: inside.certification }],
  })
  const [post] = (await test.office.get<CeremonyDetail>(`/api/ceremonies/${ceremony.id}`)).formation
  world = { inside, outside, ceremonyInside: ceremony.id, postInside: post!.id, testDay, testDayOutside }
  const account = {
    office: {},
    administrator: {},
    commander: { unitId: platoonA },
    leader: { unitId: platoonA },
    sponsor: { soldierId: inside.sponsorId },
    grader: { soldierId: graderOfA },
    soldier: { soldierId: inside.candidateId },
  }
  for (const role of ROLES) {
    clients[role] = await test.signedIn({ name: `account of ${role}`, roles: [role], ...account[role] })
  }
})

afterAll(() => test.close())

describe('who may do what, on what', () => {
  it('covers every route', async () => {
    const document = await test.office.get<{ paths: Record<string, object> }>('/api/openapi.json')
    const routes = Object.entries(document.paths).flatMap(([path, methods]) =>
      Object.keys(methods).map((method) => `${method.toUpperCase()} ${path}`),
    )
    expect(routes.length).toBeGreaterThan(30)
    const covered = new Set(TABLE.map(({ route }) => route))
    const missing = routes.filter((route) => !covered.has(route) && !ELSEWHERE.some((pattern) => pattern.test(route)))
    expect(missing).toEqual([])
  })

  describe.each(TABLE.map((row, index) => [`${row.route} (${index + 1})`, row] as const))('%s', (_name, row) => {
    const [method, address] = row.route.split(' ') as [Method, string]

    it.each(ROLES)('%s', async (role) => {
      for (const where of ['inside', 'outside'] as const) {
        const expected = row[where]
        if (!expected) continue
        const path = row.path?.(world[where], world) ?? address
        const answer = await clients[role].tries(method, path, row.body?.(world[where], world))
        expect(answer.status, `${where}: ${JSON.stringify(answer.body).slice(0, 300)}`).toBe(
          expected[role] ?? expected.others,
        )
      }
    })
  })

  describe('by a token of the account, what is read is answered alike where tokens are taken, and refused elsewhere', () => {
    const reads = TABLE.filter(({ route }) => route.startsWith('GET'))

    it.each(ROLES)('%s', async (role) => {
      const { paths } = await test.office.get<{ paths: Record<string, { get?: { security?: object[] } }> }>(
        '/api/openapi.json',
      )
      const scopes = ['roster', 'readiness', 'sheets', 'test-days', 'ceremonies', 'standards'].map((of) => `${of}:read`)
      const body = { name: 'Reads all', scopes, days: 1 }
      const { token } = await clients[role].post<{ token: string }>('/api/account/tokens', body)
      const headers = { authorization: `Bearer ${token}` }
      let taken = 0
      for (const row of reads) {
        const address = row.route.split(' ')[1]!
        const isTaken = paths[address]!.get!.security?.length === 2
        if (isTaken) taken += 1
        for (const where of ['inside', 'outside'] as const) {
          const expected = row[where]
          if (!expected) continue
          const path = row.path?.(world[where], world) ?? address
          const { status } = await test.nobody.tries('GET', path, undefined, headers)
          expect([path, where, status]).toEqual([path, where, isTaken ? (expected[role] ?? expected.others) : 403])
        }
      }
      expect(taken).toBeGreaterThan(20)
    })
  })

  it('gives graders no forecast of whom they are to judge', async () => {
    const path = `/api/soldiers/${world.inside.candidateId}/forecasts`
    expect((await clients.grader.get<{ items: unknown[] }>(path)).items).toEqual([])
    expect((await clients.office.get<{ items: unknown[] }>(path)).items).not.toEqual([])
  })

  it.each(ROLES)('lists the forecasts in scope for the %s, and none for graders and administrators', async (role) => {
    const asked = [world.inside, world.outside].map((side) => `${side.candidateId}:${side.standard}`)
    const { items } = await clients[role].get<{ items: { soldierId: string }[] }>(`/api/forecasts?tests=${asked}`)
    const seen = items.map(({ soldierId }) => soldierId)
    const [inside, outside] = [world.inside.candidateId, world.outside.candidateId]
    const none = role === 'grader' || role === 'administrator'
    expect(seen).toEqual(none ? [] : role === 'office' ? [inside, outside] : [inside])
  })

  it('shows what is out of scope in no list', async () => {
    const lists = ['/api/soldiers', '/api/readiness', '/api/retests', '/api/sheets', '/api/bookings', '/api/appeals']
    const hidden = [world.outside.candidateId, world.outside.sheetId, world.outside.sponsorId]
    for (const role of ROLES.filter((name) => name !== 'office' && name !== 'administrator')) {
      for (const path of lists) {
        const text = JSON.stringify(await clients[role].get(path))
        expect(
          hidden.filter((id) => text.includes(id)),
          `${role} ${path}`,
        ).toEqual([])
      }
    }
    for (const path of lists.slice(1)) {
      const { items } = await clients.administrator.get<{ items: unknown[] }>(path)
      expect(items, path).toEqual([])
    }
  })
})
