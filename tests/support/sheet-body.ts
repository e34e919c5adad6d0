import type { z } from 'zod'
import type { SheetBody } from '../../server/contract/sheets/sheets.ts'
import type { StandardBody } from '../../server/contract/standards/standards.ts'

/** A sheet as a client may write it, with what has a default left out. */
export type SheetInput = z.input<typeof SheetBody>
type StandardInput = z.input<typeof StandardBody>

/** A standard of one major and three minors, of which two must be GO; "halt" has a gauge, 4 to 6 inches. */
export function shortStandard(more: Partial<StandardInput> & { code: string }): StandardInput {
  return {
    title: 'Short standard',
    rule: { trials: 3, needed: 2, percent: '60' },
    majors: [
      {
        code: 'composure',
        title: 'Ceremonial composure',
        faults: [
          { code: 'spoke', title: 'Spoke' },
          { code: 'laughed', title: 'Laughed' },
        ],
      },
    ],
    minors: [
      { code: 'draw', title: 'Draw', faults: [{ code: 'slow', title: 'Slow' }] },
      {
        code: 'halt',
        title: 'Halt',
        gauges: ['tip'],
        faults: [
          { code: 'tip-low', title: 'Tip too low' },
          { code: 'tip-high', title: 'Tip too high' },
        ],
      },
      { code: 'turn', title: 'Turn' },
    ],
    gauges: [{ code: 'tip', title: 'Tip height', unit: 'in', min: '4', max: '6', low: 'tip-low', high: 'tip-high' }],
    effectiveFrom: '2020-01-01',
    ...more,
  }
}

const GO = ['correct', 'correct', 'incorrect'] as const
const NO_GO = ['incorrect', 'correct', 'incorrect'] as const

/** Marks under the short standard: the named minors NO-GO, all else GO. */
export const marks = (...noGo: ('draw' | 'halt' | 'turn')[]): Pick<SheetInput, 'majors' | 'minors'> => ({
  majors: [{ code: 'composure', mark: 'GO' }],
  minors: (['draw', 'halt', 'turn'] as const).map((code) => ({
    code,
    trials: [...(noGo.includes(code) ? NO_GO : GO)],
  })),
})

export const GO_MARKS = marks('turn')
export const NO_GO_MARKS = marks('draw', 'halt')

/** Stopped after five calls: "draw" is GO, "halt" has two marks and a reading out of its band, "turn" was not reached. */
export const STOPPED_MARKS: Pick<SheetInput, 'majors' | 'minors'> = {
  majors: [{ code: 'composure', mark: 'NO-GO', atCall: 5, faults: ['spoke', 'laughed'] }],
  minors: [
    { code: 'draw', trials: ['correct', 'incorrect', 'correct'], faults: [{ trial: 2, code: 'slow' }] },
    { code: 'halt', trials: ['correct', 'correct'], readings: [{ trial: 2, gauge: 'tip', value: '6.01' }] },
  ],
}

/** Old paper often has just the result. */
export const outcomeOnly = (outcome: 'GO' | 'NO-GO'): Pick<SheetInput, 'majors' | 'minors' | 'outcomeOnly'> => ({
  majors: [],
  minors: [],
  outcomeOnly: outcome,
})

/** When a test of half an hour takes place, by its UTC day and the hour at which it finishes. */
export function times(day: string, hour = 10): Pick<SheetInput, 'startedAt' | 'finishedAt'> {
  const finishedAt = `${day}T${String(hour).padStart(2, '0')}:00:00Z`
  return { startedAt: new Date(Date.parse(finishedAt) - 1_800_000).toISOString(), finishedAt }
}
