import { describe, expect, it } from 'vitest'
import { StandardBody } from '../../../server/contract/standards/standards.ts'
import { applyEvent } from '../../../web/domain/sheets/grading/apply-event.ts'
import { startSheet } from '../../../web/domain/sheets/grading/running-sheet.ts'
import { closingScore, keepsOpen } from '../../../web/domain/sheets/grading/sheet-body.ts'
import { scoredStandard } from '../../../web/domain/sheets/scored-standard.ts'
import { arranged } from '../../../web/domain/standards/edits/call-order.ts'
import { allSaying } from '../../../web/domain/standards/edits/call-said.ts'
import {
  addMeasure,
  changeMinor,
  newMinor,
  withFittingCalls,
} from '../../../web/domain/standards/edits/measure-edits.ts'
import { namedLines } from '../../../web/domain/standards/edits/named-lines.ts'
import { formatCall } from '../../../web/domain/standards/format-call.ts'
import { draftProblems } from '../../../web/features/standards/editor/draft-problems.ts'

/** A draft as the page begins one: a title, and minor measures of which only the titles are known. */
const begun = (title: string, measures: readonly string[]): StandardBody => {
  const used: string[] = []
  const minors = measures.map((one) => {
    const minor = newMinor(one, used)
    used.push(minor.code)
    return minor
  })
  return withFittingCalls(StandardBody.parse({ code: 'own', title, minors, effectiveFrom: '2026-01-01' }))
}

const HEAD = {
  purpose: 'practice',
  standard: 'own',
  standardVersion: 1,
  arm: null,
  candidate: { id: null, rosterNumber: '', grade: '', familyName: '', givenName: '' },
  sponsor: null,
  graderId: '',
  testDayId: null,
  secondOf: null,
  conditions: { uniform: true, equipment: true, sponsorPresent: true },
} as const

/** Grades a whole practice test on a draft: the first trials of a measure incorrect, the rest correct. */
function graded(draft: StandardBody, incorrect: number) {
  expect(draftProblems(draft)).toEqual([])
  const scored = scoredStandard({ ...draft, id: '', publishedAt: null })
  const at = '2026-06-17T14:00:00Z'
  let sheet = startSheet(HEAD, at)
  for (const { code } of draft.majors) sheet = applyEvent(scored, sheet, { kind: 'major', major: code, mark: 'GO' }, at)
  draft.calls.forEach(({ trial }, call) => {
    sheet = applyEvent(scored, sheet, { kind: 'mark', call, mark: trial <= incorrect ? 'incorrect' : 'correct' }, at)
  })
  expect(keepsOpen(scored, sheet)).toEqual([])
  return closingScore(scored, sheet)
}

describe('units of all kinds write their standard with nothing but what the page has', () => {
  it('a rifle drill team: five trials, three needed, an unbroken run, a fault of its own', () => {
    let draft = begun('Exhibition drill', ['Port to inspection arms', 'Spin and catch', 'Exchange'])
    draft = withFittingCalls({ ...draft, arms: ['rifle'], rule: { trials: 5, needed: 3, percent: '100' } })
    draft = addMeasure(draft, 'majors', 'Safety').draft
    draft = changeMinor(draft, 'spin-and-catch', {
      faults: namedLines([], ['Rifle dropped', 'Not caught at the balance']),
    })
    draft = { ...draft, calls: allSaying(draft.calls, 'exchange', { preparatory: 'Exchange', execution: 'ARMS' }) }
    draft = { ...draft, calls: arranged(draft.calls, ['spin-and-catch', 'exchange'], 'unbroken') }
    expect(draft.calls).toHaveLength(15)
    expect(graded(draft, 2).go).toBe(3)
    expect(graded(draft, 3)).toMatchObject({ go: 0, noGo: 3 })
  })

  it('a colour guard with no blades: commands that differ by what one carries, calls in pairs', () => {
    let draft = begun('Colours', ['Present the colours', 'Order the colours', 'Case the colours'])
    draft = { ...draft, arms: ['national-colour', 'unit-colour', 'rifle'] }
    const execution = { 'national-colour': 'COLORS (stays upright)', 'unit-colour': 'COLORS (dips)', rifle: 'ARMS' }
    draft = {
      ...draft,
      calls: allSaying(draft.calls, 'present-the-colours', { from: 'carry', preparatory: 'Present', execution }),
    }
    draft = { ...draft, calls: arranged(draft.calls, ['present-the-colours', 'order-the-colours'], 'pairs') }
    expect(formatCall(draft.calls[0]!, 'unit-colour')).toBe('Present, COLORS (dips)')
    expect(graded(draft, 1)).toMatchObject({ go: 3, noGo: 0 })
  })

  it('a fire service’s honor guard without arms', () => {
    let draft = begun('Casket watch and last alarm', [
      'Slow salute',
      'Relief of the watch',
      'Fold of the flag',
      'Last alarm',
    ])
    draft = withFittingCalls({ ...draft, rule: { trials: 2, needed: 1, percent: '75' } })
    draft = changeMinor(draft, 'slow-salute', { counts: 3 })
    draft = {
      ...draft,
      calls: allSaying(draft.calls, 'last-alarm', { execution: 'Strike the bell', cadence: 'three times five' }),
    }
    expect(draft.arms).toEqual([])
    expect(draft.majors).toEqual([])
    expect(graded(draft, 1)).toMatchObject({ go: 4, noGo: 0 })
    expect(graded(draft, 2)).toMatchObject({ go: 0, noGo: 4 })
  })
})
