import '../statistics/fixed-seed.ts'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { assessSoldier } from '../../../../server/domain/assessment/assess-soldier.ts'
import type { AssessedSheet, Dossier } from '../../../../server/domain/assessment/types.ts'
import { isConsidered } from '../../../../server/domain/certification/events.ts'
import { certificationSpans } from '../../../../server/domain/certification/spans.ts'
import type { Attempt } from '../../../../server/domain/certification/types.ts'
import { attemptNumbers } from '../../../support/attempt-numbers.ts'
import { walk } from '../../../support/walk.ts'
import { arbitraryPast, arbitrarySheets, catalogue } from './arbitrary-histories.ts'
import { ALL_WAIVABLE, amended, givenDossier, PEOPLE, settled } from './given.ts'

/** The parts of a dossier that may arrive later than its sheets. */
type Fact = Partial<Omit<Dossier, 'sheets'>>

const factsOf = ({ sheets: _, ...facts }: Dossier): Fact[] =>
  Object.entries(facts).map(([name, value]) => ({ [name]: value }))

type Arrival = AssessedSheet | Fact

const isSheet = (arrival: Arrival): arrival is AssessedSheet => 'finishedAt' in arrival

/** Every state the record went through as things arrived one by one, each judged as it came. */
function arrivals(order: readonly Arrival[]): Dossier[] {
  let dossier = givenDossier()
  return order.map((arrival) => {
    dossier = isSheet(arrival) ? { ...dossier, sheets: [...dossier.sheets, arrival] } : { ...dossier, ...arrival }
    dossier = settled(dossier, catalogue)
    return dossier
  })
}

const assess = (dossier: Dossier) => assessSoldier(catalogue, dossier, PEOPLE)

const history: fc.Arbitrary<{ sheets: AssessedSheet[]; past: Dossier; order: Arrival[] }> = fc
  .record({ sheets: arbitrarySheets, past: arbitraryPast })
  .chain(({ sheets, past }) => {
    const all: Arrival[] = [...sheets, ...factsOf(past)]
    return fc.shuffledSubarray(all, { minLength: all.length }).map((order) => ({ sheets, past, order }))
  })

/** The same with nothing that could hold a sheet: the office waives all it can, nobody grades whom they coached. */
const everySheetCounts = history.map(({ sheets, past, order }) => {
  const waive = <Item extends Arrival>(item: Item): Item =>
    isSheet(item)
      ? { ...item, waived: ALL_WAIVABLE, graderId: item.graderId === 'coach' ? 'stranger' : item.graderId }
      : item
  return { sheets: sheets.map(waive), past, order: order.map(waive) }
})

const toAttempt = ({ id, standard, version, arm, finishedAt, day, outcome }: AssessedSheet): Attempt => ({
  id,
  standard,
  version,
  arm,
  finishedAt,
  day,
  outcome: outcome === 'GO' ? 'GO' : 'NO-GO',
})

describe('when every sheet counts', () => {
  it('any order of arrival comes to the same', () => {
    fc.assert(
      fc.property(everySheetCounts, ({ sheets, past, order }) => {
        const atOnce = assess({ ...past, sheets })
        expect(atOnce.sheets.every(({ state, tolerated }) => state === 'counted' && tolerated.length === 0)).toBe(true)
        expect(assess(arrivals(order).at(-1)!)).toEqual(atOnce)
      }),
      { numRuns: 150 },
    )
  })

  it('an amendment and its reverse restore everything', () => {
    const content = arbitrarySheets.filter((list) => list.length > 0).map((list) => list[0]!)
    fc.assert(
      fc.property(everySheetCounts, content, fc.nat(), ({ sheets, past }, other, pick) => {
        fc.pre(sheets.length > 0)
        const before = settled({ ...past, sheets }, catalogue)
        const sheet = before.sheets[pick % before.sheets.length]!
        const { id: _id, state: _state, waived: _waived, standard: _standard, ...fields } = other
        const graderId = fields.graderId === 'coach' ? 'stranger' : fields.graderId
        const after = settled(amended(before, sheet.id, { ...fields, graderId }), catalogue)
        const { id: _own, waived: _own2, ...original } = sheet
        const reversed = settled(amended(after, sheet.id, original), catalogue)
        expect(reversed).toEqual(before)
        expect(assess(reversed)).toEqual(assess(before))
      }),
      { numRuns: 150 },
    )
  })
})

describe('in any order of arrival', () => {
  it('a sheet that counts stays counted, whatever comes', () => {
    let held = 0
    let counted = 0
    fc.assert(
      fc.property(history, ({ order }) => {
        const seen = new Set<string>()
        for (const dossier of arrivals(order)) {
          for (const { id, state } of dossier.sheets) {
            if (seen.has(id)) expect(state).toBe('counted')
            if (state === 'counted') seen.add(id)
            if (state === 'counted') counted += 1
            else held += 1
          }
        }
      }),
      { numRuns: 150 },
    )
    expect(Math.min(held, counted)).toBeGreaterThan(0)
  })

  it('a sheet is held for a rule that is neither waived nor tolerated, and counts with flags for what it breaks', () => {
    fc.assert(
      fc.property(history, ({ order }) => {
        for (const { state, violations, tolerated } of arrivals(order).at(-1)!.sheets) {
          const rules = violations.map(({ rule }) => rule)
          if (state === 'held') expect(rules.some((rule) => !tolerated.includes(rule))).toBe(true)
          else expect(tolerated).toEqual(rules)
        }
      }),
      { numRuns: 150 },
    )
  })

  it('judging again what was judged changes nothing', () => {
    fc.assert(
      fc.property(history, ({ order }) => {
        const dossier = arrivals(order).at(-1)!
        expect(settled(dossier, catalogue)).toEqual(dossier)
      }),
      { numRuns: 100 },
    )
  })

  it('attempts, kinds and spans follow from the sheets that count', () => {
    fc.assert(
      fc.property(history, ({ order }) => {
        const dossier = arrivals(order).at(-1)!
        const { sheets, certifications } = assess(dossier)
        const isAttempt = (one: AssessedSheet) =>
          one.state === 'counted' && one.purpose === 'test' && one.outcome !== 'VOID' && one.secondOf === null
        const attempts = dossier.sheets.filter(isAttempt).map(toAttempt)
        for (const certification of catalogue.certifications) {
          const { code } = certification
          const past = {
            attempts,
            awards: dossier.awards.get(code) ?? [],
            withdrawals: dossier.withdrawals.get(code) ?? [],
            suspensions: dossier.suspensions.get(code) ?? [],
            reviews: dossier.reviews,
          }
          const steps = walk(certification, catalogue.breaks, past)
          const numbers = attemptNumbers(steps)
          expect(certifications.find((one) => one.certification === code)).toMatchObject(
            certificationSpans(certification, catalogue.breaks, past, steps),
          )
          for (const attempt of attempts) {
            const told = sheets
              .find(({ id }) => id === attempt.id)!
              .attempts.find((one) => one.certification === code)?.number
            expect(told).toBe(isConsidered(certification, attempt) ? numbers.get(attempt.id) : undefined)
          }
        }
        const awarding = new Set(certifications.flatMap(({ earned }) => earned.map(({ sheetId }) => sheetId)))
        for (const { id, kind } of sheets) {
          const attempt = attempts.find((one) => one.id === id)
          const isEarlier = (other: Attempt) =>
            attempt !== undefined &&
            (other.finishedAt < attempt.finishedAt ||
              (other.finishedAt === attempt.finishedAt && other.id < attempt.id))
          const tests = attempts.filter((other) => other.standard === attempt?.standard && isEarlier(other))
          // A first test has no test before it, and one with a test before it is none.
          if (attempt === undefined) expect(kind).toBeNull()
          else if (tests.length > 0) expect(kind).not.toBe('first')
          else expect(['first', 'renewal']).toContain(kind)
          // What follows a NO-GO at once, with no award made and nothing carried over, is a retest.
          const latest = tests.toSorted((a, b) => a.finishedAt - b.finishedAt || (a.id < b.id ? -1 : 1)).at(-1)
          if (
            latest?.outcome === 'NO-GO' &&
            awarding.size === 0 &&
            dossier.awards.size === 0 &&
            dossier.withdrawals.size === 0
          ) {
            expect(['second', 'later']).toContain(kind)
          }
          if (latest?.outcome === 'GO') expect(kind).toBe('renewal')
        }
      }),
      { numRuns: 150 },
    )
  })
})
