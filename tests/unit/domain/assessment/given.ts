import { assessSoldier } from '../../../../server/domain/assessment/assess-soldier.ts'
import type {
  AssessedSheet,
  Dossier,
  JudgingCatalogue,
  Qualification,
  SheetAssessment,
} from '../../../../server/domain/assessment/types.ts'
import type { Certification, Terms } from '../../../../server/domain/certification/types.ts'
import { VALIDITY_RULES } from '../../../../server/domain/validity/rules.ts'

const HOUR = 3_600_000

export const TERMS: Terms = {
  effectiveFrom: '2020-01-01',
  sequence: 'any',
  windowDays: 90,
  validityMonths: 12,
  waitDays: 7,
  dueDays: 30,
  reviewAfter: 3,
}

export const SWORD: Certification = {
  code: 'sword',
  standards: ['standing', 'marching'],
  arms: ['sword'],
  terms: [TERMS],
}

const version = (standard: string, number = 1, effectiveFrom = '2020-01-01') => ({
  standard,
  version: number,
  arms: [],
  published: true,
  effectiveFrom,
})

export const givenCatalogue = (more: Partial<JudgingCatalogue> = {}): JudgingCatalogue => ({
  certifications: [SWORD],
  versions: [version('standing'), version('marching'), version('rifle-standing')],
  breaks: [],
  ...more,
})

/** A person qualified in nothing, or in what is given. */
export const givenPerson = (more: Partial<Qualification> = {}): Qualification => ({
  awards: [],
  suspensions: [],
  appointments: [],
  ...more,
})

export const carriedOver = (awardedOn: string, validThrough: string, certification = 'sword', entry = 0) => ({
  certification,
  awardedOn,
  validThrough,
  madeBy: null,
  entry,
})

/** `grader` is appointed for every standard, `sponsor` certified since 2020. */
export const PEOPLE: ReadonlyMap<string, Qualification> = new Map([
  [
    'grader',
    givenPerson({
      appointments: ['standing', 'marching', 'rifle-standing'].map((standard) => ({
        standard,
        from: '2020-01-01',
        to: null,
      })),
    }),
  ],
  ['sponsor', givenPerson({ awards: [carriedOver('2020-01-01', '2099-12-31')] })],
])

/** A valid test of an hour that ended on a day at an hour UTC; breaks no rule in `givenDossier`. */
export function givenSheet(id: string, day: string, more: Partial<AssessedSheet> & { hour?: number } = {}) {
  const { hour = 12, ...fields } = more
  const finishedAt = Date.parse(`${day}T00:00:00Z`) + hour * HOUR
  const sheet: AssessedSheet = {
    id,
    purpose: 'test',
    standard: 'standing',
    version: 1,
    outcomeOnly: false,
    isVoid: fields.outcome === 'VOID',
    isSecond: fields.secondOf != null,
    secondOf: null,
    candidateId: 'candidate',
    sponsorId: 'sponsor',
    graderId: 'grader',
    arm: 'sword',
    day,
    startedAt: finishedAt - HOUR,
    finishedAt,
    storedAt: finishedAt,
    conditionsMet: true,
    voidAfterFailure: false,
    clockSkewMs: null,
    outcome: 'GO',
    state: 'new',
    violations: [],
    waived: [],
    tolerated: [],
    ...fields,
  }
  return sheet
}

export const givenDossier = (more: Partial<Dossier> = {}): Dossier => ({
  sheets: [],
  periods: [{ from: '2020-01-01', through: null, unitId: 'first-platoon', arms: ['sword', 'rifle'] }],
  sponsorships: [{ sponsorId: 'sponsor', from: '2020-01-01', to: null }],
  reviews: [],
  awards: new Map(),
  withdrawals: new Map(),
  suspensions: new Map(),
  ...more,
})

/** What the office waives when it waives all it can. */
export const ALL_WAIVABLE: readonly string[] = Object.entries(VALIDITY_RULES).flatMap(([rule, waivable]) =>
  waivable ? [rule] : [],
)

/** The dossier after its sheets were judged, each left in the state it came to: what is stored. */
export function settled(dossier: Dossier, catalogue = givenCatalogue(), people = PEOPLE): Dossier {
  const outcomes = new Map(assessSoldier(catalogue, dossier, people).sheets.map((sheet) => [sheet.id, sheet]))
  return {
    ...dossier,
    sheets: dossier.sheets.map((sheet) => {
      const { state, violations, tolerated } = outcomes.get(sheet.id)!
      return { ...sheet, state, violations, tolerated }
    }),
  }
}

/** A sheet as it is handed in again with other content: judged as new, with what was waived and tolerated before. */
export const amended = (dossier: Dossier, id: string, content: Partial<AssessedSheet>): Dossier => ({
  ...dossier,
  sheets: dossier.sheets.map((sheet) => (sheet.id === id ? { ...sheet, ...content, state: 'new' } : sheet)),
})

/** How one sheet of a dossier stands. */
export function assessed(
  id: string,
  dossier: Dossier,
  catalogue = givenCatalogue(),
  people = PEOPLE,
): SheetAssessment & { readonly broken: readonly string[] } {
  const sheet = assessSoldier(catalogue, dossier, people).sheets.find((one) => one.id === id)!
  return { ...sheet, broken: sheet.violations.map(({ rule }) => rule) }
}
