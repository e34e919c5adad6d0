import fc from 'fast-check'
import type { ScoredStandard } from '../../../../server/domain/scoring/types.ts'
import { startSheet } from '../../../../web/domain/sheets/grading/running-sheet.ts'
import type { SheetEvent } from '../../../../web/domain/sheets/grading/sheet-event.ts'
import type { SheetHead } from '../../../../web/domain/sheets/grading/sheet-head.ts'

export const CANDIDATE = 'c0ffee00-0000-4000-8000-000000000001'
export const GRADER = 'c0ffee00-0000-4000-8000-000000000002'

export const HEAD: SheetHead = {
  purpose: 'test',
  standard: 'any',
  standardVersion: 1,
  arm: 'sword',
  candidate: { id: CANDIDATE, rosterNumber: '1007', grade: 'CPL', familyName: 'Amadi', givenName: 'Rafe' },
  sponsor: null,
  graderId: GRADER,
  testDayId: null,
  secondOf: null,
  conditions: { uniform: true, equipment: true, sponsorPresent: true },
}

const START = Date.parse('2026-06-17T14:00:00Z')

/** The instant of the n-th tap. */
export const at = (tap: number): string => new Date(START + tap * 5_000).toISOString()

export const begun = startSheet(HEAD, at(0))

/** Whatever somebody could tap, sensible or not, also at places that are not there. */
export const arbitraryEvent = (standard: ScoredStandard): fc.Arbitrary<SheetEvent> => {
  const call = fc.integer({ min: -1, max: standard.calls.length + 1 })
  const major = fc.constantFrom(...standard.majors.map(({ code }) => code), 'no-such')
  const fault = fc.constantFrom('tip-low', 'rushed', 'flare-in', 'talked', 'no-such')
  const gauge = fc.constantFrom(...standard.gauges.map((one) => one.code), 'no-such')
  const value = fc.constantFrom('5', '6.0001', '3.9', '36', '-2.51', '1.26', '30', '', '1.', 'x', null)
  const words = fc.constantFrom('', ' ', 'ground uneven')
  const event = <Kind extends SheetEvent['kind']>(
    kind: Kind,
    rest: {
      [Key in keyof Omit<Extract<SheetEvent, { kind: Kind }>, 'kind'>]: fc.Arbitrary<
        Extract<SheetEvent, { kind: Kind }>[Key]
      >
    },
  ): fc.Arbitrary<SheetEvent> => fc.record({ kind: fc.constant(kind), ...rest }) as unknown as fc.Arbitrary<SheetEvent>
  return fc.oneof(
    { weight: 12, arbitrary: event('mark', { call, mark: fc.constantFrom('correct', 'incorrect') }) },
    {
      weight: 4,
      arbitrary: event('marks', {
        calls: fc
          .tuple(call, fc.integer({ min: 1, max: 3 }))
          .map(([first, count]) => Array.from({ length: count }, (_, place) => first + place)),
        mark: fc.constantFrom('correct', 'incorrect'),
      }),
    },
    { weight: 6, arbitrary: event('undo', { step: fc.integer({ min: 0, max: 60 }) }) },
    { weight: 3, arbitrary: event('clear', { call }) },
    { weight: 2, arbitrary: event('leave-out', { call }) },
    { weight: 4, arbitrary: event('fault', { call, fault }) },
    { weight: 6, arbitrary: event('reading', { call, gauge, value }) },
    { weight: 2, arbitrary: event('override', { call, reason: words }) },
    { weight: 1, arbitrary: event('major', { major, mark: fc.constantFrom('GO', 'NO-GO', null) }) },
    event('major-fault', { major, fault }),
    event('major-note', { major, note: words }),
    event('show', { call }),
    event('cease', {}),
    event('resume', {}),
    event('void', {
      reason: fc.oneof(
        fc.constant(null),
        fc.record({ kind: fc.constantFrom('weather', 'injury', 'other'), text: words }),
      ),
    }),
    event('notes', { notes: words }),
    event('acknowledge', { soldierId: fc.constantFrom(CANDIDATE, GRADER) }),
  )
}
