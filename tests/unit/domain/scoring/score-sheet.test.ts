import '../statistics/fixed-seed.ts'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { findMalformed } from '../../../../server/domain/scoring/find-malformed.ts'
import { scoreSheet } from '../../../../server/domain/scoring/score-sheet.ts'
import type { Marks, ScoredStandard, SheetScore } from '../../../../server/domain/scoring/types.ts'
import { arbitrarySheet } from './arbitrary-sheet.ts'
import { scoreByTheLetter } from './score-by-the-letter.ts'

const openOf = (score: SheetScore): number => (score.ending === 'unfinished' ? score.open : score.notTested)

const shuffled = <Item>(list: readonly Item[]) => fc.shuffledSubarray([...list], { minLength: list.length })

/** The same sheet with its measures, faults and readings written down in another order. */
const reordered = (marks: Marks): fc.Arbitrary<Marks> =>
  fc
    .record({
      majors: shuffled(marks.majors),
      minors: shuffled(marks.minors).chain((minors) =>
        fc.tuple(
          ...minors.map((minor) =>
            fc
              .record({ faults: shuffled(minor.faults ?? []), readings: shuffled(minor.readings ?? []) })
              .map((lists) => ({ ...minor, ...lists })),
          ),
        ),
      ),
    })
    .map((lists) => ({ ...marks, ...lists }))

describe('well-formed sheets of any standard', () => {
  it('have nothing malformed', () => {
    fc.assert(
      fc.property(arbitrarySheet, ({ standard, marks }) => {
        expect(findMalformed(standard, marks)).toEqual([])
      }),
      { numRuns: 500 },
    )
  })

  it('come to what counting trial by trial, by the letter of the rules, comes to', () => {
    const endings = new Map<string, number>()
    fc.assert(
      fc.property(arbitrarySheet, ({ standard, marks }) => {
        const score = scoreSheet(standard, marks)
        const { undecided, minors, ...expected } = scoreByTheLetter(standard, marks)
        expect(score).toMatchObject(expected)
        expect(openOf(score)).toBe(undecided)
        const undecidedIs = score.ending === 'unfinished' ? null : 'not tested'
        expect(score.minors).toEqual(
          minors.map((minor) => ({ ...minor, outcome: minor.outcome === 'undecided' ? undecidedIs : minor.outcome })),
        )
        endings.set(`${score.ending} ${score.outcome}`, (endings.get(`${score.ending} ${score.outcome}`) ?? 0) + 1)
      }),
      { numRuns: 1000 },
    )
    expect([...endings.keys()].sort()).toEqual([
      'completed GO',
      'completed NO-GO',
      'stopped NO-GO',
      'unfinished null',
      'void VOID',
    ])
  })

  it('come to the same in whatever order they are written', () => {
    const pairs = arbitrarySheet.chain(({ standard, marks }) =>
      reordered(marks).map((other) => ({ standard, marks, other })),
    )
    fc.assert(
      fc.property(pairs, ({ standard, marks, other }) => {
        expect(scoreSheet(standard, other)).toEqual(scoreSheet(standard, marks))
        expect(findMalformed(standard, other)).toEqual([])
      }),
      { numRuns: 300 },
    )
  })

  it('account for every minor measure, in the order of the standard, with faults sorted and once', () => {
    fc.assert(
      fc.property(arbitrarySheet, ({ standard, marks }) => {
        const score = scoreSheet(standard, marks)
        expect(score.go + score.noGo + openOf(score)).toBe(standard.minors.length)
        expect(score.minors.map(({ code }) => code)).toEqual(standard.minors.map(({ code }) => code))
        for (const minor of score.minors) {
          const keys = minor.faults.map(({ trial, code }) => `${trial} ${code}`)
          expect(keys).toEqual([...new Set(keys)].sort())
          expect(minor.correct + minor.incorrect).toBe(
            (marks.minors.find(({ code }) => code === minor.code)?.trials ?? []).filter((mark) => mark !== null).length,
          )
        }
      }),
      { numRuns: 300 },
    )
  })

  it('are left as they were', () => {
    fc.assert(
      fc.property(arbitrarySheet, ({ standard, marks }) => {
        const before = structuredClone({ standard, marks })
        scoreSheet(standard, marks)
        findMalformed(standard, marks)
        expect({ standard, marks }).toEqual(before)
      }),
      { numRuns: 50 },
    )
  })
})

describe('one sheet', () => {
  const minors = Array.from({ length: 13 }, (_, index) => ({ code: `m${index}`, gauges: [], faults: [] }))
  const standard: ScoredStandard = {
    rule: { trials: 3, needed: 2, percent: '80' },
    majors: [{ code: 'uniform', faults: [] }],
    minors,
    gauges: [],
    calls: [],
  }
  const marked = (go: number, rest: Marks['minors'][number]['trials']): Marks['minors'] =>
    minors.map(({ code }, index) => ({ code, trials: index < go ? ['correct', 'correct'] : rest }))
  const uniform = { code: 'uniform', mark: 'GO' as const }

  // 80 percent of 13 is 10.4: eleven are needed.
  it.each([
    [11, 'GO'],
    [10, 'NO-GO'],
  ])('with %i of 13 measures GO is %s', (go, outcome) => {
    const marks = { majors: [uniform], minors: marked(go, ['incorrect', 'incorrect']) }
    expect(scoreSheet(standard, marks)).toMatchObject({ ending: 'completed', outcome, minimum: 11, notTested: 0 })
  })

  it('goes on when the minimum is out of reach, and is NO-GO only when all is decided', () => {
    const outOfReach = marked(0, ['incorrect', 'incorrect']).map((minor, index) =>
      index < 3 ? minor : { ...minor, trials: [] },
    )
    expect(scoreSheet(standard, { majors: [uniform], minors: outOfReach })).toMatchObject({
      ending: 'unfinished',
      outcome: null,
      stillNeeded: 11,
      open: 10,
      reachable: false,
    })
  })

  it('waits for its major measures although every minor measure is decided', () => {
    const score = scoreSheet(standard, { majors: [], minors: marked(13, []) })
    expect(score).toMatchObject({ ending: 'unfinished', open: 0, stillNeeded: 0, reachable: true })
  })

  it('is void before it is stopped, and keeps what was marked', () => {
    const marks = { majors: [{ code: 'uniform', mark: 'NO-GO' as const, atCall: 0 }], minors: marked(4, []) }
    expect(scoreSheet(standard, marks)).toMatchObject({ ending: 'stopped', outcome: 'NO-GO', go: 4, notTested: 9 })
    expect(scoreSheet(standard, { ...marks, void: { kind: 'injury' } })).toMatchObject({
      ending: 'void',
      outcome: 'VOID',
      go: 4,
      notTested: 9,
    })
  })

  it.each(['GO', 'NO-GO'] as const)('known by its outcome alone, %s, says nothing of measures', (outcomeOnly) => {
    expect(scoreSheet(standard, { majors: [], minors: [], outcomeOnly })).toMatchObject({
      ending: 'recorded',
      outcome: outcomeOnly,
      minimum: null,
      minors: [],
    })
  })
})
