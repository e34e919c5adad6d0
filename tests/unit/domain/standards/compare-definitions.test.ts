import { describe, expect, it } from 'vitest'
import { StandardBody } from '../../../../server/contract/standards/standards.ts'
import { compareDefinitions } from '../../../../server/domain/standards/compare-definitions.ts'
import { shortStandard } from '../../../support/sheet-body.ts'

const SHORT = StandardBody.parse(shortStandard({ code: 'short' }))
const [draw, halt, turn] = SHORT.minors as [
  StandardBody['minors'][number],
  StandardBody['minors'][number],
  StandardBody['minors'][number],
]

describe('the comparison of two versions', () => {
  it('is empty for the same, in whatever order the fields are', () => {
    const shuffledCalls = { ...SHORT, calls: [{ trial: 1, measure: 'draw' }] }
    expect(compareDefinitions(SHORT, structuredClone(SHORT))).toEqual([])
    expect(compareDefinitions({ ...SHORT, calls: [{ measure: 'draw', trial: 1 }] }, shuffledCalls)).toEqual([])
  })

  it.each<[string, Partial<StandardBody>, object[]]>([
    [
      'the rule',
      { rule: { trials: 3, needed: 2, percent: '80' }, arms: ['sword'] },
      [
        { part: 'rule', what: 'Minors that must be GO', before: '60 %', after: '80 %' },
        { part: 'rule', what: 'Arms', before: 'any', after: 'sword' },
      ],
    ],
    [
      'a renamed measure, one gone and one new',
      { minors: [{ ...draw, title: 'Draw saber' }, halt, { ...turn, code: 'half-step', title: 'Half step' }] },
      [
        { part: 'measures', what: 'Minor measure', before: 'Turn', after: null },
        { part: 'measures', what: 'Minor measure draw', before: 'Draw', after: 'Draw saber' },
        { part: 'measures', what: 'Minor measure', before: null, after: 'Half step' },
      ],
    ],
    [
      'another order',
      { minors: [turn, draw, halt] },
      [
        {
          part: 'measures',
          what: 'Order of the minor measures',
          before: 'draw, halt, turn',
          after: 'turn, draw, halt',
        },
      ],
    ],
    [
      'faults',
      {
        minors: [
          {
            ...draw,
            faults: [
              { code: 'slow', title: 'Too slow' },
              { code: 'late', title: 'Late' },
            ],
          },
          halt,
          turn,
        ],
      },
      [
        { part: 'faults', what: 'Fault slow of Draw', before: 'Slow', after: 'Too slow' },
        { part: 'faults', what: 'Fault of Draw', before: null, after: 'Late' },
      ],
    ],
    [
      'a band',
      { gauges: [{ ...SHORT.gauges[0]!, max: null }] },
      [{ part: 'gauges', what: 'Band of Tip height', before: '4 to 6 in', after: '4 to no upper limit in' }],
    ],
  ])('names %s', (_what, change, expected) => {
    expect(compareDefinitions(SHORT, { ...SHORT, ...change })).toEqual(expected)
  })

  it('is as long one way as the other', () => {
    const other = { ...SHORT, minors: [turn, halt], majors: [], gauges: [], title: 'Other' }
    expect(compareDefinitions(SHORT, other)).toHaveLength(compareDefinitions(other, SHORT).length)
  })
})
