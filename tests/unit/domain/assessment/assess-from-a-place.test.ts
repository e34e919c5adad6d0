import '../statistics/fixed-seed.ts'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { assessSoldier } from '../../../../server/domain/assessment/assess-soldier.ts'
import { fromPlaceOn } from '../../../../server/domain/assessment/from-place-on.ts'
import { isAttempt, toAttempt } from '../../../../server/domain/assessment/to-attempt.ts'
import type {
  AssessedSheet,
  Dossier,
  KnownBefore,
  SheetAssessment,
  SoldierAssessment,
} from '../../../../server/domain/assessment/types.ts'
import { addDays } from '../../../../server/domain/calendar/plain-date.ts'
import { arbitraryPast, arbitrarySheets, catalogue } from './arbitrary-histories.ts'
import { ALL_WAIVABLE, PEOPLE, settled } from './given.ts'

const assess = (dossier: Dossier, known?: KnownBefore) => assessSoldier(catalogue, dossier, PEOPLE, known)

interface Arrival {
  /** Without the sheet that arrives, each left in the state it came to. */
  readonly before: Dossier
  readonly arriving: AssessedSheet
  /** The day from which on the standing is worked out lies so many days before it must. */
  readonly slack: number
}

/** All but what an earlier sheet may heal. */
const WAIVED = ALL_WAIVABLE.filter((rule) => rule !== 'out-of-sequence')

/** What may let go of a later sheet. */
const A_GO = { standard: 'standing', outcome: 'GO', isVoid: false, purpose: 'test', waived: WAIVED } as const

/** A sheet that arrives at any place among others, which may be held, rejected, void, practice and of second graders. */
const arrival: fc.Arbitrary<Arrival> = fc
  .record({
    sheets: arbitrarySheets.filter((list) => list.length > 1),
    past: arbitraryPast,
    pick: fc.option(fc.nat(), { freq: 2 }),
    rejected: fc.nat({ max: 12 }),
    undecided: fc.subarray([0, 1, 2, 3, 4, 5, 6, 7, 8], { maxLength: 3 }),
    slack: fc.nat({ max: 2 }),
  })
  .map(({ sheets, past, pick, rejected, undecided, slack }) => {
    const earliest = sheets.reduce(
      (least, { finishedAt }, index) => (finishedAt < sheets[least]!.finishedAt ? index : least),
      0,
    )
    const at = pick === null ? earliest : pick % sheets.length
    const arriving = pick === null ? { ...sheets[at]!, ...A_GO } : sheets[at]!
    const waived = sheets.map((sheet, index) => (undecided.includes(index) ? sheet : { ...sheet, waived: WAIVED }))
    const states = waived.map((sheet, index) => (index === rejected ? { ...sheet, state: 'rejected' as const } : sheet))
    const before = settled({ ...past, sheets: states.toSpliced(at, 1) }, catalogue)
    return { before, arriving, slack }
  })

const reaches = (day: string) => (span: { readonly through: string | null }) =>
  span.through === null || span.through >= addDays(day, -1)

/** What stands as it did, as a database would tell it: keys in another order. */
function settledBefore({ before, arriving, slack }: Arrival): { known: KnownBefore; from: AssessedSheet[] } {
  const isBefore = ({ finishedAt }: AssessedSheet) => finishedAt < arriving.startedAt
  const from = before.sheets.filter((sheet) => !isBefore(sheet))
  const day = addDays([arriving, ...from].map((sheet) => sheet.day).sort()[0]!, -slack)
  const stood = assess(before)
  const reversed = <Value>(value: Value): Value =>
    JSON.parse(JSON.stringify(value), (_, part) =>
      part !== null && typeof part === 'object' && !Array.isArray(part)
        ? Object.fromEntries(Object.entries(part).reverse())
        : part,
    )
  const known = {
    day,
    attempts: before.sheets.filter((one) => isBefore(one) && one.state === 'counted' && isAttempt(one)).map(toAttempt),
    overlapping: new Set(stood.sheets.filter(({ overlaps }) => overlaps).map(({ id }) => id)),
    standings: new Map(
      stood.certifications.map(({ certification, statuses, retests }) => [
        certification,
        { statuses: reversed(statuses.filter(reaches(day))), retests: reversed(retests.filter(reaches(day))) },
      ]),
    ),
  }
  return { known, from }
}

/** Of an assessment of everything: some sheets, the spans that reach a day, and the awards that those sheets earned. */
function partOf({ sheets, certifications }: SoldierAssessment, ids: ReadonlySet<string>, known: KnownBefore) {
  return {
    sheets: sheets.filter(({ id }) => ids.has(id)),
    certifications: certifications.map((one) => fromPlaceOn(known, one)),
  }
}

/** The rest of it. */
function restOf({ sheets, certifications }: SoldierAssessment, ids: ReadonlySet<string>, day: string) {
  const isOver = (span: { readonly through: string | null }) => !reaches(day)(span)
  return {
    sheets: sheets.filter(({ id }) => !ids.has(id)),
    certifications: certifications.map(({ certification, statuses, retests, earned }) => ({
      certification,
      statuses: statuses.filter(isOver),
      retests: retests.filter(isOver),
      earned: earned.filter(({ sheetId }) => !ids.has(sheetId)),
    })),
  }
}

describe('a sheet that arrives, judged from its place on', () => {
  it('comes to the same as all judged anew, and leaves what lies before it as it is', () => {
    const seen = { settledAttempts: 0, later: 0, released: 0, overlaps: 0 }
    fc.assert(
      fc.property(arrival, (one) => {
        const { known, from } = settledBefore(one)
        const sheets = [...from, one.arriving]
        const ids = new Set(sheets.map(({ id }) => id))
        const stood = assess(one.before)
        const whole = assess({ ...one.before, sheets: [...one.before.sheets, one.arriving] })
        expect(assess({ ...one.before, sheets }, known)).toEqual(partOf(whole, ids, known))
        expect(restOf(whole, ids, known.day)).toEqual(restOf(stood, ids, known.day))
        const stateOf = (list: readonly SheetAssessment[], id: string) => list.find((other) => other.id === id)?.state
        seen.settledAttempts += known.attempts.length
        seen.later += from.length
        seen.released += from.filter(({ id }) => stateOf(whole.sheets, id) !== stateOf(stood.sheets, id)).length
        seen.overlaps += whole.sheets.filter(({ overlaps }) => overlaps).length
      }),
      { numRuns: 250 },
    )
    expect(Math.min(...Object.values(seen)), JSON.stringify(seen)).toBeGreaterThan(0)
  })
})
