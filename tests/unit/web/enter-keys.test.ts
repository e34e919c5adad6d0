import fs from 'node:fs'
import path from 'node:path'
import { describe, expect, it } from 'vitest'
import { scoredStandard } from '../../../web/domain/sheets/scored-standard.ts'
import { cellsOf, endedAfter, isBeyondEnd } from '../../../web/features/sheets/enter/cells.ts'
import { type Draft, newDraft } from '../../../web/features/sheets/enter/draft.ts'
import {
  FAULT_KEYS,
  type Marking,
  placeAfter,
  pressKey,
  targetOf,
} from '../../../web/features/sheets/enter/key-marking.ts'
import { setAtCall, setReading } from '../../../web/features/sheets/enter/mark-draft.ts'
import { marksOf } from '../../../web/features/sheets/enter/to-body.ts'
import { id, standing } from './given.ts'

const standard = scoredStandard(standing)
const cells = cellsOf(standard)

const blankSheet = (): Draft =>
  newDraft(id(1), { standardId: standing.id, grader: null, day: '2026-11-17', arm: 'sword' })

const start = (): Marking => ({ draft: blankSheet(), at: 0, last: null })

/** Types keys one by one, as the screen does. */
const type = (marking: Marking, keys: string | string[]): Marking =>
  [...keys].reduce((now, key) => pressKey(standard, now, key)?.marking ?? now, marking)

interface Case {
  name: string
  sheet: {
    majors: { code: string; mark?: 'GO' | 'NO-GO' | null; atCall?: number | null; faults?: string[] }[]
    minors: {
      code: string
      trials: ('correct' | 'incorrect' | null)[]
      faults?: { trial: number; code: string }[]
      readings?: { trial: number; gauge: string; value: string; override: string | null }[]
    }[]
    void?: unknown
    outcomeOnly?: unknown
  }
  expected: { malformed?: unknown }
}

/** Invented sheets of the rules' own cases, well-formed and with marks. */
const cases = (
  JSON.parse(fs.readFileSync(path.join(import.meta.dirname, '../../cases/test-day.json'), 'utf8')) as { cases: Case[] }
).cases.filter(({ sheet, expected }) => !expected.malformed && !sheet.outcomeOnly)

/** Types a sheet as a clerk would: majors, then line by line, faults by their letters, readings into their fields. */
const typeSheet = ({ majors, minors }: Case['sheet']): Draft => {
  let marking = start()
  const faultKey = (code: string, fault: string) => {
    const measure = [...standard.majors, ...standard.minors].find((one) => one.code === code)
    return FAULT_KEYS[measure?.faults.findIndex((one) => one.code === fault) ?? -1] ?? '?'
  }
  for (const definition of standard.majors) {
    const major = majors.find(({ code }) => code === definition.code)
    marking = type(marking, major?.mark === 'GO' ? '1' : major?.mark === 'NO-GO' ? '0' : '.')
    marking = type(
      marking,
      (major?.faults ?? []).map((fault) => faultKey(definition.code, fault)),
    )
    if (major?.mark !== 'NO-GO') continue
    const draft = setAtCall(marking.draft, definition.code, String(major.atCall))
    marking = { draft, at: placeAfter(standard, draft, marking.at), last: null }
  }
  for (const definition of standard.minors) {
    const minor = minors.find(({ code }) => code === definition.code)
    const end = endedAfter(marking.draft)
    for (let trial = 1; trial <= standard.rule.trials; trial++) {
      if (isBeyondEnd({ code: definition.code, trial }, standard.calls, end)) continue
      const mark = minor?.trials[trial - 1]
      marking = type(marking, mark === 'correct' ? '1' : mark === 'incorrect' ? '0' : '.')
      const faults = minor?.faults?.filter((fault) => fault.trial === trial) ?? []
      marking = type(
        marking,
        faults.map(({ code }) => faultKey(definition.code, code)),
      )
      for (const reading of minor?.readings?.filter((one) => one.trial === trial) ?? []) {
        const target = cells[targetOf(marking, cells)!]!
        marking = {
          ...marking,
          draft: setReading(marking.draft, target, reading.gauge, reading.value, reading.override),
        }
      }
    }
  }
  return marking.draft
}

const byTrial = <Noted extends { trial: number }>(noted: readonly Noted[]) =>
  [...noted].sort((a, b) => JSON.stringify(a).localeCompare(JSON.stringify(b)))

describe('sheets typed by keys alone', () => {
  it('are there to be typed', () => expect(cases.length).toBeGreaterThan(30))
  it.each(cases.map((one) => [one.name, one.sheet] as const))('%s comes out as it stands on the paper', (_, sheet) => {
    const typed = marksOf(typeSheet(sheet), standing)
    for (const major of sheet.majors) {
      const there = typed.majors.find(({ code }) => code === major.code)
      expect(there).toMatchObject({
        mark: major.mark ?? null,
        atCall: major.atCall ?? null,
        faults: major.faults ?? [],
      })
    }
    for (const { code, trials } of typed.minors) {
      const paper = sheet.minors.find((minor) => minor.code === code)
      expect(trials).toEqual(
        (paper?.trials ?? []).slice(0, (paper?.trials ?? []).findLastIndex((mark) => mark !== null) + 1),
      )
      const there = typed.minors.find((minor) => minor.code === code)
      expect(byTrial(there?.faults ?? [])).toEqual(byTrial(paper?.faults ?? []))
      expect(byTrial(there?.readings ?? [])).toEqual(byTrial(paper?.readings ?? []))
    }
  })
})

describe('single keys', () => {
  it('mark and move on', () => {
    const marking = type(start(), '111')
    expect(marking.at).toBe(3)
    expect(marking.draft.majors).toMatchObject({ uniform: { mark: 'GO' }, composure: { mark: 'GO' } })
    expect(marking.draft.minors.draw?.trials).toEqual(['correct'])
  })
  it('a point leaves a place blank and moves on', () => {
    expect(type(start(), '11.').at).toBe(3)
    expect(type(start(), '11.').draft.minors.draw?.trials).toEqual([])
  })
  it('a letter notes a fault of the trial just marked, and takes it back', () => {
    const noted = type(start(), '110b')
    expect(noted.draft.minors.draw?.faults).toEqual([{ trial: 1, code: 'left-hand-off' }])
    expect(type(noted, 'B').draft.minors.draw?.faults).toEqual([])
  })
  it('a letter without a fault or a trial to put it on does nothing', () => {
    expect(pressKey(standard, start(), 'a')).toBeNull()
    expect(pressKey(standard, type(start(), '110'), 'z')).toBeNull()
    expect(pressKey(standard, start(), '=')).toBeNull()
    expect(pressKey(standard, start(), 'F5')).toBeNull()
  })
  it('going to a marked trial makes it the one that letters are for', () => {
    const back = type(type(start(), '11010'), ['ArrowLeft', 'ArrowLeft', 'a'])
    expect(back.draft.minors.draw?.faults).toEqual([{ trial: 2, code: 'forearm-off' }])
  })
  it('Backspace takes back the mark with all that was noted on it', () => {
    const taken = type(type(start(), '110b'), ['Backspace'])
    expect(taken.at).toBe(2)
    expect(taken.draft.minors.draw).toEqual({ trials: [], faults: [], readings: [] })
    expect(pressKey(standard, start(), 'Backspace')).toBeNull()
  })
  it('a major NO-GO asks for its call and stays', () => {
    const outcome = pressKey(standard, start(), '0')
    expect(outcome?.elsewhere).toEqual({ to: 'at-call', code: 'uniform' })
    expect(outcome?.marking.at).toBe(0)
  })
  it('after a major NO-GO the places that were not reached are passed over', () => {
    const stopped = setAtCall(type(start(), '10').draft, 'composure', '2')
    // The first calls of the standing manual are draw 1, return 1, draw 2, return 2, draw 3.
    const marking = type({ draft: stopped, at: placeAfter(standard, stopped, 1), last: null }, '1')
    expect(cells[marking.at]).toEqual({ code: 'return', trial: 1 })
    expect(pressKey(standard, type(marking, '1'), '1')).toBeNull()
  })
  it('arrows, Enter, Home and End move about', () => {
    const at = (keys: string[]) => cells[type(start(), keys).at]
    expect(at(['Enter', 'Enter'])).toEqual({ code: 'draw', trial: 1 })
    expect(at(['End'])).toEqual({ code: 'carry-order', trial: 3 })
    expect(at(['End', 'ArrowUp'])).toEqual({ code: 'about-face', trial: 3 })
    expect(at(['End', 'ArrowRight'])).toEqual({ code: 'carry-order', trial: 3 })
    expect(at(['ArrowDown', 'ArrowDown', 'ArrowUp'])).toEqual({ code: 'composure', trial: 0 })
    expect(at(['End', 'Home', 'ArrowLeft', 'ArrowUp'])).toEqual({ code: 'uniform', trial: 0 })
  })
  it('marks at the end leave nothing more to mark', () => {
    const full = type(start(), '1'.repeat(41))
    expect(full.at).toBe(cells.length)
    expect(pressKey(standard, full, '1')).toBeNull()
    expect(targetOf(full, cells)).toBe(cells.length - 1)
  })
})
