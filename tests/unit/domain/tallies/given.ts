import type { MarkedMajor, MarkedMinor } from '../../../../server/domain/scoring/types.ts'
import type { FindingsVersion } from '../../../../server/domain/tallies/version-counts.ts'

const named = (...codes: string[]) => codes.map((code) => ({ code, title: code }))

/** Two majors, three minors; "draw" has two faults and two gauges, one of them without an upper limit. */
export const DEFINITION = {
  rule: { trials: 3, needed: 2, percent: '60' },
  majors: [
    { code: 'uniform', title: 'Uniform', faults: named('torn') },
    { code: 'composure', title: 'Composure', faults: named('spoke', 'laughed') },
  ],
  minors: [
    { code: 'draw', title: 'Draw', gauges: ['tip', 'lean'], faults: named('slow', 'tip-high') },
    { code: 'turn', title: 'Turn', gauges: [], faults: named('slow') },
    { code: 'halt', title: 'Halt', gauges: ['tip'], faults: named('tip-high') },
  ],
  gauges: [
    { code: 'tip', title: 'Tip', min: '4', max: '6', high: 'tip-high' },
    { code: 'lean', title: 'Lean', min: '0', max: null, target: '5' },
  ],
  calls: [],
}

export const GO = ['correct', 'correct', 'correct'] as const
export const NO_GO = ['incorrect', 'correct', 'incorrect'] as const

/** All GO but the minors named. */
export const marks = (...noGo: string[]): { majors: MarkedMajor[]; minors: MarkedMinor[] } => ({
  majors: DEFINITION.majors.map(({ code }) => ({ code, mark: 'GO' as const })),
  minors: DEFINITION.minors.map(({ code }) => ({ code, trials: [...(noGo.includes(code) ? NO_GO : GO)] })),
})

/** A version of the definition, changed as told. */
export const version = (
  number: number,
  change: (definition: typeof DEFINITION) => FindingsVersion['definition'] = (same) => same,
): FindingsVersion => ({ standard: 'standing', version: number, definition: change(structuredClone(DEFINITION)) })
