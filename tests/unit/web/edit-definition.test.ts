import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { StandardBody } from '../../../server/contract/standards/standards.ts'
import { checkDefinition } from '../../../server/domain/standards/check-definition.ts'
import { armsForGrade } from '../../../web/domain/soldiers/arms-for-grade.ts'
import { codeFor, fittingCalls, moved } from '../../../web/features/standards/edit-definition.ts'
import { shortStandard } from '../../support/sheet-body.ts'

const SHORT = StandardBody.parse(shortStandard({ code: 'short' }))

describe('editing a definition', () => {
  it('keeps calls that fit the measures, whatever is added, removed, moved or tried more or less often', () => {
    const edit = fc.record({ drop: fc.subarray([0, 1, 2]), add: fc.nat(3), trials: fc.integer({ min: 1, max: 5 }) })
    fc.assert(
      fc.property(edit, edit, (first, second) => {
        let draft = { ...SHORT, calls: fittingCalls(SHORT) }
        for (const { drop, add, trials } of [first, second]) {
          const kept = draft.minors.filter((_, index) => !drop.includes(index))
          const added: StandardBody['minors'] = []
          for (let count = 0; count < add; count++) {
            const used = [...draft.minors, ...added].map(({ code }) => code)
            added.push({ ...SHORT.minors[0]!, code: codeFor('Half step', used) })
          }
          const next = { ...draft, minors: [...added, ...kept], rule: { ...draft.rule, trials, needed: 1 } }
          draft = { ...next, calls: fittingCalls(next) }
        }
        expect(checkDefinition(draft)).toEqual([])
      }),
      { seed: 20261125, numRuns: 200 },
    )
  })

  it('leaves calls as they were where nothing is missing, and puts a new measure’s after the one before it', () => {
    const calls = fittingCalls(SHORT).reverse()
    expect(fittingCalls({ ...SHORT, calls })).toEqual(calls)
    const half = { ...SHORT.minors[0]!, code: 'half-step' }
    const [draw, halt, turn] = SHORT.minors
    const minors = [draw!, half, halt!, turn!]
    expect(fittingCalls({ ...SHORT, minors, calls: fittingCalls(SHORT) }).map(({ measure }) => measure)).toEqual(
      minors.flatMap(({ code }) => [code, code, code]),
    )
  })

  it('finds codes and moves things', () => {
    expect(codeFor('Présent, from order!', [])).toBe('present-from-order')
    expect(codeFor('Halt', ['halt', 'halt-2'])).toBe('halt-3')
    expect(codeFor('…', [])).toBe('new')
    expect(moved(['a', 'b', 'c'], 2, -1)).toEqual(['a', 'c', 'b'])
    expect(moved(['a', 'b', 'c'], 0, -1)).toEqual(['a', 'b', 'c'])
  })
})

describe('arms for a grade', () => {
  const certification = (code: string, arms: string[], grades: string[] | null) => ({
    id: '8f6a2f0e-1c1f-4f66-9d43-1f8b8f0a3c11',
    code,
    title: code,
    standards: ['x'],
    arms,
    sequence: 'any' as const,
    windowDays: 90,
    validityMonths: 12,
    waitDays: 7,
    dueDays: 30,
    reviewAfter: 3,
    requiredOf: grades && { grades, units: null },
    effectiveFrom: '2023-01-01',
  })
  const ALL = [
    certification('saber', ['saber'], ['2LT', '1LT']),
    certification('sword', ['sword'], ['SGT', 'SFC']),
    certification('rifle', ['rifle'], null),
  ]

  it('changes the sword for the saber when an NCO becomes an officer, and nothing within a rank', () => {
    expect(armsForGrade(ALL, ['sword', 'rifle'], 'SFC', '2LT')).toEqual(['rifle', 'saber'])
    expect(armsForGrade(ALL, ['sword', 'rifle'], 'SGT', 'SFC')).toEqual(['sword', 'rifle'])
    expect(armsForGrade(ALL, ['rifle'], 'CPL', 'SGT')).toEqual(['rifle', 'sword'])
    expect(armsForGrade(ALL, ['rifle'], 'CPL', 'nobody')).toEqual(['rifle'])
  })
})
