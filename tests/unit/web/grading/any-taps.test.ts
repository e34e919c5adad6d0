import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { SheetBody } from '../../../../server/contract/sheets/sheets.ts'
import { findMalformed } from '../../../../server/domain/scoring/find-malformed.ts'
import { scoreSheet } from '../../../../server/domain/scoring/score-sheet.ts'
import { applyEvent } from '../../../../web/domain/sheets/grading/apply-event.ts'
import type { RunningSheet } from '../../../../web/domain/sheets/grading/running-sheet.ts'
import { keepsOpen, marksOf, scoreSoFar, sheetBody } from '../../../../web/domain/sheets/grading/sheet-body.ts'
import { lastStep } from '../../../../web/domain/sheets/grading/steps.ts'
import { arbitraryStandard } from '../../domain/scoring/arbitrary-sheet.ts'
import '../../domain/statistics/fixed-seed.ts'
import { arbitraryEvent, at, begun } from './arbitrary-events.ts'

/** A standard, and a sheet under it after whatever somebody tapped. */
const tapped = arbitraryStandard.chain((standard) =>
  fc.array(arbitraryEvent(standard), { maxLength: 120 }).map((events) => ({
    standard,
    events,
    sheet: events.reduce((sheet, event, index) => applyEvent(standard, sheet, event, at(index + 1)), begun),
  })),
)

describe('a sheet after any taps', () => {
  it('is well formed for the server, however it stands', () => {
    fc.assert(
      fc.property(tapped, ({ standard, sheet }) => {
        expect(findMalformed(standard, marksOf(standard, sheet))).toEqual([])
        const body = sheetBody(standard, sheet)
        expect(SheetBody.safeParse(body).error).toBeUndefined()
        expect(findMalformed(standard, body)).toEqual([])
      }),
      { numRuns: 400 },
    )
  })

  it('is finished for the server exactly when nothing keeps it open', () => {
    let finished = 0
    fc.assert(
      fc.property(tapped, ({ standard, sheet }) => {
        const isOpen = keepsOpen(standard, sheet).length > 0
        const { ending } = scoreSheet(standard, sheetBody(standard, sheet))
        if (ending !== 'unfinished') finished += 1
        // A call whose measure is decided may still be open for the grader; the server would take the sheet.
        if (!isOpen) expect(ending).not.toBe('unfinished')
      }),
      { numRuns: 400 },
    )
    expect(finished).toBeGreaterThan(10)
  })

  it('can be brought to its end by marking what is open, one call after the other', () => {
    fc.assert(
      fc.property(tapped, ({ standard, sheet }) => {
        let left = applyEvent(standard, sheet, { kind: 'void', reason: null }, at(200))
        for (const { code } of standard.majors) {
          left = applyEvent(standard, left, { kind: 'major', major: code, mark: 'GO' }, at(200))
        }
        left = applyEvent(standard, left, { kind: 'show', call: keepsOpen(standard, left)[0] ?? 0 }, at(200))
        for (let open = keepsOpen(standard, left); open[0] !== undefined; open = keepsOpen(standard, left)) {
          expect(left.at).toBe(open.find((call) => call >= left.at) ?? open[0])
          left = applyEvent(standard, left, { kind: 'mark', call: left.at, mark: 'correct' }, at(201))
          expect(keepsOpen(standard, left)).toHaveLength(open.length - 1)
        }
        expect(scoreSheet(standard, sheetBody(standard, left)).ending).toBe('completed')
      }),
      { numRuns: 200 },
    )
  })

  it('shows the score that the server will give', () => {
    fc.assert(
      fc.property(tapped, ({ standard, sheet }) => {
        const { go, noGo, minors } = scoreSheet(standard, sheetBody(standard, sheet))
        const shown = scoreSoFar(standard, sheet)
        expect([shown.go, shown.noGo]).toEqual([go, noGo])
        expect(shown.minors.map(({ code, faults }) => ({ code, faults }))).toEqual(
          minors.map(({ code, faults }) => ({ code, faults })),
        )
      }),
      { numRuns: 200 },
    )
  })

  it('is, after taking back step by step, as it was before each of them', () => {
    let takenBack = 0
    fc.assert(
      fc.property(tapped, ({ standard, events }) => {
        const trail: RunningSheet[] = [begun]
        let sheet = begun
        for (const [index, event] of events.filter(({ kind }) => kind !== 'undo').entries()) {
          const next = applyEvent(standard, sheet, event, at(index + 1))
          if (lastStep(next)?.number !== lastStep(sheet)?.number) trail.push(sheet)
          sheet = next
        }
        for (let step = lastStep(sheet); step; step = lastStep(sheet)) {
          const before = trail.pop()!
          sheet = applyEvent(standard, sheet, { kind: 'undo', step: step.number }, at(200))
          // The same tap twice takes back one step.
          expect(applyEvent(standard, sheet, { kind: 'undo', step: step.number }, at(201))).toBe(sheet)
          expect(marksOf(standard, { ...sheet, void: null })).toEqual(marksOf(standard, { ...before, void: null }))
          expect(findMalformed(standard, sheetBody(standard, sheet))).toEqual([])
          takenBack += 1
        }
      }),
      { numRuns: 200 },
    )
    expect(takenBack).toBeGreaterThan(100)
  })

  it('is the same however often each tap came through', () => {
    const repeatable = new Set([
      'mark',
      'marks',
      'undo',
      'clear',
      'leave-out',
      'reading',
      'major',
      'cease',
      'resume',
      'void',
      'show',
    ])
    fc.assert(
      fc.property(tapped, ({ standard, events }) => {
        const once = events.filter(({ kind }) => repeatable.has(kind))
        const withTaps = (taps: typeof events) => {
          const { lastAt, pauses, ...sheet } = taps.reduce(
            (before, event) => applyEvent(standard, before, event, at(1)),
            begun,
          )
          return sheet
        }
        expect(withTaps(once.flatMap((event) => [event, event]))).toEqual(withTaps(once))
      }),
      { numRuns: 200 },
    )
  })
})
