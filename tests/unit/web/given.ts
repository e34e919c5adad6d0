import fs from 'node:fs'
import path from 'node:path'
import type { CeremonyDetail } from '#contract/ceremonies/ceremonies.ts'
import type { SheetBody, SheetResult, SheetSummary } from '#contract/sheets/sheets.ts'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import type { CertificationStatus, Readiness, Retest } from '#contract/standards/certifications.ts'
import { Standard } from '#contract/standards/standards.ts'

/** Ids that read well in a failure: the number at the end of a UUID of noughts. */
export const id = (number: number): string => `00000000-0000-4000-8000-${String(number).padStart(12, '0')}`

/** The standing manual, as the cases of the rules use it. */
export const standing: Standard = Standard.parse({
  ...JSON.parse(fs.readFileSync(path.join(import.meta.dirname, '../../cases/standard-standing.json'), 'utf8')),
  id: id(900),
  publishedAt: '2023-01-01T00:00:00Z',
})

export const unit = (number: number, name: string, parent: number | null, timeZone: string | null = null): Unit => ({
  id: id(number),
  name,
  kind: parent === null ? 'unit' : 'platoon',
  parentId: parent === null ? null : id(parent),
  timeZone,
  zone: timeZone ?? 'America/New_York',
  closedFrom: null,
  place: 0,
  continues: [],
})

export const status = (part: Partial<CertificationStatus> = {}): CertificationStatus => ({
  certification: 'sword',
  status: 'certified',
  awardedOn: null,
  validThrough: null,
  suspended: false,
  toward: [],
  retestOpen: [],
  ...part,
})

type Item = Readiness['items'][number]

export const item = (part: Partial<Item> = {}): Item => ({
  ...status(),
  soldierId: id(1),
  rosterNumber: '1001',
  name: 'Ashdown, Mirela',
  grade: 'SGT',
  unitId: id(500),
  required: true,
  since: null,
  suspension: null,
  retests: [],
  booked: [],
  ...part,
})

export const retest = (part: Partial<Retest> = {}): Retest => ({
  soldierId: id(1),
  certification: 'sword',
  standard: standing.code,
  attempt: 2,
  on: '2026-11-17',
  earliest: '2026-11-24',
  due: '2026-12-17',
  pastDue: false,
  noGosInARow: 1,
  needsReview: false,
  rosterNumber: '1001',
  name: 'Amadi, Rafe',
  grade: 'CPL',
  unitId: id(500),
  ...part,
})

type Post = CeremonyDetail['formation'][number]

export const post = (part: Partial<Post> = {}): Post => ({
  id: id(700),
  title: 'National colours',
  row: 1,
  place: 1,
  certification: 'sword',
  arm: null,
  grades: null,
  minHeightCm: null,
  maxHeightCm: null,
  filled: (part.soldier?.whyNot.length ?? 1) === 0,
  otherUnit: false,
  soldier: null,
  ...part,
})

export const body = (part: Partial<SheetBody> = {}): SheetBody => ({
  purpose: 'test',
  standard: standing.code,
  standardVersion: standing.version,
  arm: 'sword',
  candidateId: id(1),
  sponsorId: id(2),
  graderId: id(3),
  testDayId: null,
  secondOf: null,
  startedAt: '2026-11-17T09:00:00-05:00',
  finishedAt: '2026-11-17T09:31:00-05:00',
  conditions: { uniform: true, equipment: true, sponsorPresent: true },
  majors: [],
  minors: [],
  pauses: [],
  void: null,
  outcomeOnly: null,
  notes: '',
  acknowledged: [],
  ...part,
})

export const result = (part: Partial<SheetResult> = {}): SheetResult => ({
  ending: 'completed',
  outcome: 'NO-GO',
  minimum: 11,
  go: 10,
  noGo: 3,
  notTested: 0,
  minors: [],
  attempts: [{ certification: 'sword', number: 2 }],
  ...part,
})

export const sheet = (part: Partial<SheetSummary> = {}): SheetSummary => ({
  id: id(800),
  state: 'counted',
  day: '2026-11-17',
  receivedAt: '2026-11-17T15:00:00Z',
  revision: 1,
  flags: [],
  violations: [],
  result: result(),
  body: body(),
  people: {},
  ...part,
})
