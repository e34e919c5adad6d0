import fs from 'node:fs'
import { describe, expect, it } from 'vitest'
import { StandardBody } from '../../../../server/contract/standards/standards.ts'
import { applyEvent } from '../../../../web/domain/sheets/grading/apply-event.ts'
import {
  completedCalls,
  endedAfter,
  isDecidedBefore,
  openCalls,
  runningFrom,
  runOf,
} from '../../../../web/domain/sheets/grading/calls.ts'
import type { RunningSheet } from '../../../../web/domain/sheets/grading/running-sheet.ts'
import { closingScore, keepsOpen, scoreSoFar, sheetBody } from '../../../../web/domain/sheets/grading/sheet-body.ts'
import type { SheetEvent } from '../../../../web/domain/sheets/grading/sheet-event.ts'
import { scoredStandard } from '../../../../web/domain/sheets/scored-standard.ts'
import { at, begun } from './arbitrary-events.ts'

const standing = StandardBody.parse(JSON.parse(fs.readFileSync('tests/cases/standard-standing.json', 'utf8')))
const scored = scoredStandard({ ...standing, id: '', publishedAt: null })

const tap = (sheet: RunningSheet, ...events: SheetEvent[]): RunningSheet =>
  events.reduce((before, event, index) => applyEvent(scored, before, event, at(index + 1)), sheet)

const correct = (...calls: number[]): SheetEvent[] => calls.map((call) => ({ kind: 'mark', call, mark: 'correct' }))
const all = scored.calls.map((_, index) => index)

describe('the standing manual on the field', () => {
  it('is called in the order of the standard: draw and return in turns, the third return last of all', () => {
    const measures: string[] = []
    let sheet = begun
    while (sheet.at < scored.calls.length) {
      measures.push(`${scored.calls[sheet.at]!.measure} ${scored.calls[sheet.at]!.trial}`)
      sheet = tap(sheet, ...correct(sheet.at))
    }
    expect(measures.slice(0, 6)).toEqual(['draw 1', 'return 1', 'draw 2', 'return 2', 'draw 3', 'present-from-carry 1'])
    expect(measures.slice(-4)).toEqual(['carry-order 1', 'carry-order 2', 'carry-order 3', 'return 3'])
    expect(measures).toHaveLength(39)
    expect(closingScore(scored, sheet)).toMatchObject({ ending: 'completed', outcome: 'GO', go: 13, minimum: 11 })
    expect(sheetBody(scored, sheet).majors.map(({ mark }) => mark)).toEqual(['GO', 'GO'])
  })

  it('has carry and order as one unbroken run', () => {
    const first = scored.calls.findIndex(({ measure }) => measure === 'carry-order')
    expect(runOf(standing.calls, first + 1)).toEqual([first, first + 1, first + 2])
    expect(runOf(standing.calls, 0)).toEqual([0])
  })

  it('goes on at the next open call after an earlier mark was changed', () => {
    const sheet = tap(begun, ...correct(0, 1, 2, 3), { kind: 'show', call: 1 })
    const mended = tap(sheet, { kind: 'mark', call: 1, mark: 'incorrect' })
    expect(mended.at).toBe(4)
    // From the overview a mark changes without leading away from the call that is shown.
    expect(tap({ ...sheet, at: 4 }, { kind: 'mark', call: 1, mark: 'incorrect' }).at).toBe(4)
  })

  it('marks a trial by its reading, takes that back with the reading, and lets a reason override it', () => {
    const present = scored.calls.findIndex(({ measure }) => measure === 'present-from-carry')
    const read = (value: string | null): SheetEvent => ({ kind: 'reading', call: present, gauge: 'tip-height', value })
    const low = tap(begun, read('3.5'))
    expect(low.trials[present]).toMatchObject({ mark: 'incorrect', byReading: true })
    expect(scoreSoFar(scored, low).minors[2]?.faults).toEqual([{ trial: 1, code: 'tip-low' }])
    expect(tap(low, read('4')).trials[present]).toMatchObject({ mark: null, byReading: false })
    const stands = tap(low, { kind: 'override', call: present, reason: 'ground uneven' })
    expect(sheetBody(scored, stands).minors[2]).toMatchObject({
      trials: ['correct'],
      readings: [{ trial: 1, gauge: 'tip-height', value: '3.5', override: 'ground uneven' }],
    })
    // Inside the band there is nothing left to override.
    expect(tap(stands, read('5')).trials[present]?.readings[0]?.override).toBeNull()
  })

  it('keeps a fault noted before its trial is marked, and puts it on the sheet with the mark', () => {
    const noted = tap(begun, { kind: 'fault', call: 0, fault: 'elbow-bent' })
    expect(sheetBody(scored, noted).minors[0]?.faults).toEqual([])
    const marked = tap(noted, { kind: 'mark', call: 0, mark: 'incorrect' })
    expect(sheetBody(scored, marked).minors[0]?.faults).toEqual([{ trial: 1, code: 'elbow-bent' }])
  })

  it('ends with a major NO-GO after the calls completed, and goes on where it was when that is taken back', () => {
    const stopped = tap(begun, ...correct(0, 1, 2), { kind: 'major', major: 'composure', mark: 'NO-GO' })
    expect(endedAfter(stopped)).toBe(3)
    expect(tap(stopped, ...correct(3))).toEqual(stopped)
    expect(keepsOpen(scored, stopped)).toEqual([])
    expect(closingScore(scored, stopped)).toMatchObject({ ending: 'stopped', outcome: 'NO-GO', notTested: 12 })
    const on = tap(stopped, { kind: 'major', major: 'composure', mark: null })
    expect([endedAfter(on), on.at, completedCalls(on)]).toEqual([null, 3, 3])
  })

  it('lets a call be left out only once its measure is decided', () => {
    const third = all.filter((call) => scored.calls[call]!.measure === 'draw')[2]!
    const once = tap(begun, ...correct(0, 1))
    expect(isDecidedBefore(scored, once, third)).toBe(false)
    const twice = tap(once, ...correct(2, 3))
    const out = tap(twice, { kind: 'leave-out', call: third })
    expect(openCalls(scored, out)).not.toContain(third)
    // A mark changed later can open it again.
    expect(openCalls(scored, tap(out, { kind: 'mark', call: 2, mark: 'incorrect' }))).toContain(third)
  })

  it('marks calls that were called running at once, and takes them back at once', () => {
    const [first, second, third] = all.filter((call) => scored.calls[call]!.measure === 'right-face')
    expect(runningFrom(scored, begun, first!)).toEqual([first, second, third])
    // Draw and return are called in turns: each of them is marked when it was seen.
    expect(runningFrom(scored, begun, 0)).toEqual([])
    const shown = tap(begun, { kind: 'show', call: first! })
    const marked = tap(shown, { kind: 'marks', calls: [first!, second!, third!], mark: 'correct' })
    expect(marked.at).toBe(third! + 1)
    expect(sheetBody(scored, marked).minors.find(({ code }) => code === 'right-face')?.trials).toHaveLength(3)
    const back = tap(marked, { kind: 'undo', step: 1 })
    expect([back.trials, back.at]).toEqual([{}, first])
    // One marked already, or with a fault noted, is not among them.
    const once = tap(shown, { kind: 'mark', call: first!, mark: 'incorrect' })
    expect(runningFrom(scored, once, second!)).toEqual([second, third])
    expect(tap(once, { kind: 'marks', calls: [first!, second!, third!], mark: 'correct' })).toBe(once)
    expect(runningFrom(scored, tap(shown, { kind: 'fault', call: third!, fault: 'heels-apart' }), first!)).toEqual([])
  })

  it('takes back a reading that was stepped to as one step, and a major NO-GO with the place it was at', () => {
    const present = all.find((call) => scored.calls[call]!.measure === 'present-from-carry')!
    const read = (value: string): SheetEvent => ({ kind: 'reading', call: present, gauge: 'tip-height', value })
    const stepped = tap(begun, ...correct(0), read('5'), read('4'), read('3'))
    expect(stepped.trials[present]?.mark).toBe('incorrect')
    expect(tap(stepped, { kind: 'undo', step: 2 }).trials[present]).toBeUndefined()
    const stopped = tap(begun, ...correct(0), { kind: 'major', major: 'composure', mark: 'NO-GO' })
    const on = tap(stopped, { kind: 'undo', step: 2 })
    expect([endedAfter(on), on.at, completedCalls(on)]).toEqual([null, 1, 1])
  })

  it('ends when something last happened on the field, and keeps its pauses with their times', () => {
    const sheet = tap(begun, ...correct(0), { kind: 'cease' }, { kind: 'resume' }, { kind: 'notes', notes: 'wet' })
    expect(sheetBody(scored, sheet)).toMatchObject({
      startedAt: at(0),
      finishedAt: at(3),
      pauses: [{ from: at(2), to: at(3), note: '' }],
    })
  })
})
