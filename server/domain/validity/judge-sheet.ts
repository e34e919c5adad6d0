import type { PlainDate } from '../calendar/plain-date.ts'
import { rulesFor, VALIDITY_RULES, type ValidityRule, type Violation } from './rules.ts'

/** Device and server clock may differ by so much, and a test may end so long after now. */
const CLOCK_TOLERANCE_MS = 5 * 60_000

/** What the conditions of a valid test ask about one sheet. */
export interface SheetFacts {
  readonly purpose: 'test' | 'practice'
  readonly outcomeOnly: boolean
  readonly isVoid: boolean
  readonly isSecond: boolean
  readonly candidateId: string
  readonly sponsorId: string | null
  readonly graderId: string
  readonly arm: string | null
  readonly day: PlainDate
  /** Milliseconds since 1970. */
  readonly finishedAt: number
  readonly conditionsMet: boolean
  readonly voidAfterFailure: boolean
  /** When this content was stored, milliseconds since 1970. */
  readonly storedAt: number
  /** Device clock less server clock when first sent; null: the device did not say. */
  readonly clockSkewMs: number | null
}

/** What lies around the sheet: people and certifications as of its day, from what lies before it in order. */
export interface Surroundings {
  readonly version: { readonly published: boolean; readonly from: PlainDate; readonly nextFrom: PlainDate | null }
  readonly standardArms: readonly string[]
  /** Arms the candidate carries that day. */
  readonly candidateArms: readonly string[]
  /** Of the candidate, on any day. */
  readonly sponsorships: readonly {
    readonly sponsorId: string
    readonly from: PlainDate
    readonly to: PlainDate | null
  }[]
  /** Day of the candidate's last award in any certification that requires the standard. */
  readonly lastAwardOn: PlainDate | null
  readonly graderQualified: boolean
  readonly sponsorCertified: boolean
  /** Certifications that require the standard and fit the candidate that day. */
  readonly certifications: readonly {
    readonly code: string
    readonly retest: { readonly earliest: PlainDate; readonly needsReview: boolean } | null
    /** Standards that come before this one where the sequence is in order, and are not kept that day. */
    readonly missingBefore: readonly string[]
  }[]
}

/**
 * The conditions that a sheet breaks, one a rule, in the order of the rules.
 * In: facts of a well-formed, finished sheet and what lies around it. Out: an empty list where the test is valid.
 */
export function judgeSheet(sheet: SheetFacts, around: Surroundings): Violation[] {
  return rulesFor(sheet).flatMap((rule) => {
    const detail = CHECKS[rule](sheet, around)
    return detail === null ? [] : [{ rule, waivable: VALIDITY_RULES[rule], detail }]
  })
}

type Check = (sheet: SheetFacts, around: Surroundings) => string | null

const CHECKS: Record<ValidityRule, Check> = {
  'grader-is-candidate': (sheet) =>
    sheet.graderId === sheet.candidateId ? 'Grader and candidate are the same person.' : null,

  'sponsor-is-candidate': (sheet) =>
    sheet.sponsorId === sheet.candidateId ? 'Sponsor and candidate are the same person.' : null,

  'grader-coached': (sheet, around) => {
    if (sheet.graderId === sheet.sponsorId) return 'The grader is the sponsor on the sheet.'
    const coached = around.sponsorships.some(
      (one) =>
        one.sponsorId === sheet.graderId &&
        one.from <= sheet.day &&
        (around.lastAwardOn === null || one.to === null || one.to > around.lastAwardOn),
    )
    if (!coached) return null
    const since = around.lastAwardOn === null ? '' : ` since the award of ${around.lastAwardOn}`
    return `The grader has sponsored the candidate${since}.`
  },

  'grader-not-qualified': (_sheet, around) =>
    around.graderQualified
      ? null
      : 'The grader was neither certified in this standard that day nor appointed to grade it.',

  'no-sponsor': (sheet) => (sheet.sponsorId === null ? 'No sponsor is named.' : null),

  'not-the-sponsor': (sheet, around) => {
    if (sheet.sponsorId === null) return null
    const ofRecord = around.sponsorships.some(
      (one) => one.sponsorId === sheet.sponsorId && one.from <= sheet.day && (one.to === null || sheet.day <= one.to),
    )
    return ofRecord ? null : "The sponsor on the sheet is not on record as the candidate's sponsor that day."
  },

  'sponsor-not-certified': (sheet, around) =>
    sheet.sponsorId === null || around.sponsorCertified
      ? null
      : 'The sponsor was not certified in this standard that day.',

  conditions: (sheet) =>
    sheet.conditionsMet ? null : 'Uniform, equipment or the presence of the sponsor was not as it must be.',

  'too-early': (sheet, around) => {
    const early = around.certifications.find(({ retest }) => retest !== null && sheet.day < retest.earliest)
    return early ? `The retest for ${early.code} was allowed from ${early.retest!.earliest} on.` : null
  },

  'review-missing': (_sheet, around) => {
    const missing = around.certifications.find(({ retest }) => retest?.needsReview)
    return missing ? `A review is due before the next retest for ${missing.code}; none is recorded.` : null
  },

  'out-of-sequence': (_sheet, around) => {
    const broken = around.certifications.find(({ missingBefore }) => missingBefore.length > 0)
    return broken ? `For ${broken.code} these come first: ${broken.missingBefore.join(', ')}.` : null
  },

  'standard-not-in-force': (sheet, { version }) => {
    if (!version.published) return 'This version of the standard is not published.'
    if (sheet.day < version.from) return `This version of the standard is in force only from ${version.from} on.`
    if (version.nextFrom !== null && sheet.day >= version.nextFrom) {
      return `From ${version.nextFrom} on a later version of the standard is in force.`
    }
    return null
  },

  'arm-not-allowed': (sheet, around) => {
    const arm = sheet.arm
    if (arm === null) return around.standardArms.length > 0 ? 'The standard needs an arm; the sheet names none.' : null
    if (around.standardArms.length > 0 && !around.standardArms.includes(arm)) {
      return `The standard is not tested with the ${arm}.`
    }
    return around.candidateArms.includes(arm) ? null : `The candidate did not carry the ${arm} that day.`
  },

  'void-after-failure': (sheet) =>
    sheet.isVoid && sheet.voidAfterFailure
      ? 'The test was made void after a major NO-GO or once the minimum was out of reach.'
      : null,

  'clock-skew': (sheet) => {
    if (sheet.clockSkewMs !== null && Math.abs(sheet.clockSkewMs) > CLOCK_TOLERANCE_MS) {
      return `The clock of the device was ${Math.round(Math.abs(sheet.clockSkewMs) / 60_000)} minutes off.`
    }
    if (sheet.finishedAt > sheet.storedAt + CLOCK_TOLERANCE_MS) return 'The test ends in the future.'
    return null
  },
}
