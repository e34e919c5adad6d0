import { placeInBand } from '#scoring/band.ts'
import type { ScoredStandard } from '#scoring/types.ts'
import { READING } from '../reading.ts'
import { completedCalls, endedAfter, isDecidedBefore, isFollowed, isMarkable, openCalls, runningFrom } from './calls.ts'
import { isCeased, majorOf, type RunningSheet, type TrialNote, trialAt } from './running-sheet.ts'
import type { SheetEvent } from './sheet-event.ts'
import { withoutLastStep, withStep } from './steps.ts'

/** More pauses than this the server does not take; the last one is then opened again. */
const MOST_PAUSES = 100

/**
 * The sheet after one thing a grader did.
 * In: the version graded under, the sheet, the event and the device's time. Out: a new sheet, or the very same one when
 * the event cannot be: then nothing happened. Whatever the events, what comes out makes a well-formed body (`sheetBody`).
 */
export const applyEvent = (
  standard: ScoredStandard,
  sheet: RunningSheet,
  event: SheetEvent,
  now: string,
): RunningSheet => {
  const after = applied(standard, sheet, event, now)
  const next = event.kind === 'undo' ? after : withStep(sheet, after, event)
  const isShownAnew = next !== sheet && next.acknowledged.length > 0 && CHANGES_RESULT.has(event.kind)
  return isShownAnew ? { ...next, acknowledged: [] } : next
}

/** After one of these, whoever said that they have seen the result has not seen this one. */
const CHANGES_RESULT: ReadonlySet<SheetEvent['kind']> = new Set([
  'mark',
  'marks',
  'undo',
  'clear',
  'leave-out',
  'fault',
  'reading',
  'override',
  'major',
  'major-fault',
  'void',
  'candidate',
])

const applied = (standard: ScoredStandard, sheet: RunningSheet, event: SheetEvent, now: string): RunningSheet => {
  const trial = (call: number, change: Partial<TrialNote>): RunningSheet => ({
    ...sheet,
    trials: { ...sheet.trials, [call]: { ...trialAt(sheet, call), ...change } },
  })
  switch (event.kind) {
    case 'mark': {
      if (!isMarkable(standard, sheet, event.call)) return sheet
      const marked = trial(event.call, { mark: event.mark, byReading: false, notCalled: false })
      return moveOn(standard, { ...marked, lastAt: now }, event.call)
    }
    case 'marks': {
      const running = runningFrom(standard, sheet, event.calls[0] ?? -1)
      if (running.length !== event.calls.length || running.some((call, place) => call !== event.calls[place]))
        return sheet
      const trials = { ...sheet.trials }
      for (const call of running) trials[call] = { ...trialAt(sheet, call), mark: event.mark, notCalled: false }
      return moveOn(standard, { ...sheet, trials, lastAt: now }, running[0]!)
    }
    case 'undo':
      return withoutLastStep(sheet, event.step, now)
    case 'clear': {
      const { mark, notCalled } = trialAt(sheet, event.call)
      if ((mark === null && !notCalled) || isFollowed(standard, sheet, event.call)) return sheet
      return { ...trial(event.call, { mark: null, byReading: false, notCalled: false }), at: event.call }
    }
    case 'leave-out': {
      const isOver = event.call >= (endedAfter(sheet) ?? standard.calls.length)
      if (isOver || !isDecidedBefore(standard, sheet, event.call)) return sheet
      if (trialAt(sheet, event.call).mark !== null) return sheet
      return moveOn(standard, { ...trial(event.call, { notCalled: true }), lastAt: now }, event.call)
    }
    case 'fault': {
      const known = standard.minors.find(({ code }) => code === standard.calls[event.call]?.measure)
      if (!known?.faults.some(({ code }) => code === event.fault)) return sheet
      return trial(event.call, { faults: toggled(trialAt(sheet, event.call).faults, event.fault) })
    }
    case 'reading':
      return withReading(standard, sheet, event, now)
    case 'override': {
      if (!isMarkable(standard, sheet, event.call) || event.reason.trim() === '') return sheet
      const readings = trialAt(sheet, event.call).readings.map((reading) => ({
        ...reading,
        override: isOutside(standard, reading) ? event.reason.trim() : null,
      }))
      const marked = trial(event.call, { readings, mark: 'correct', byReading: false, notCalled: false })
      return moveOn(standard, { ...marked, lastAt: now }, event.call)
    }
    case 'major': {
      if (!standard.majors.some(({ code }) => code === event.major)) return sheet
      const before = majorOf(sheet, event.major)
      if (before.mark === event.mark) return sheet
      const atCall = event.mark === 'NO-GO' ? completedCalls(sheet) : null
      const judged = withMajor(sheet, event.major, { ...before, mark: event.mark, atCall })
      if (event.mark === 'NO-GO') return { ...judged, at: standard.calls.length, lastAt: now }
      const goesOn = before.mark === 'NO-GO' && endedAfter(judged) === null
      return { ...judged, at: goesOn ? (openCalls(standard, judged)[0] ?? judged.at) : judged.at, lastAt: now }
    }
    case 'major-fault': {
      const known = standard.majors.find(({ code }) => code === event.major)
      if (!known?.faults.some(({ code }) => code === event.fault)) return sheet
      const before = majorOf(sheet, event.major)
      return withMajor(sheet, event.major, { ...before, faults: toggled(before.faults, event.fault) })
    }
    case 'major-note':
      if (!standard.majors.some(({ code }) => code === event.major)) return sheet
      return withMajor(sheet, event.major, { ...majorOf(sheet, event.major), note: event.note })
    case 'show':
      if (!Number.isInteger(event.call) || event.call < 0 || event.call > standard.calls.length) return sheet
      return { ...sheet, at: event.call }
    case 'cease':
      return isCeased(sheet) ? sheet : { ...sheet, pauses: ceased(sheet.pauses, now), lastAt: now }
    case 'resume':
      return isCeased(sheet) ? { ...sheet, pauses: resumed(sheet.pauses, now), lastAt: now } : sheet
    case 'void':
      if (event.reason?.kind === 'other' && event.reason.text.trim() === '') return sheet
      return { ...sheet, void: event.reason, lastAt: now }
    case 'notes':
      return { ...sheet, notes: event.notes }
    case 'conditions':
      return { ...sheet, head: { ...sheet.head, conditions: event.conditions } }
    case 'candidate':
      return { ...sheet, head: { ...sheet.head, candidate: event.candidate, sponsor: event.sponsor } }
    case 'acknowledge': {
      if (sheet.acknowledged.some(({ soldierId }) => soldierId === event.soldierId)) return sheet
      return { ...sheet, acknowledged: [...sheet.acknowledged, { soldierId: event.soldierId, at: now }] }
    }
  }
}

/** After the call that was shown comes the next one that is open, else the first; then the end. */
const moveOn = (standard: ScoredStandard, sheet: RunningSheet, call: number): RunningSheet => {
  if (call !== sheet.at) return sheet
  const open = openCalls(standard, sheet)
  return { ...sheet, at: open.find((other) => other > call) ?? open[0] ?? standard.calls.length }
}

const withReading = (
  standard: ScoredStandard,
  sheet: RunningSheet,
  { call, gauge, value }: Extract<SheetEvent, { kind: 'reading' }>,
  now: string,
): RunningSheet => {
  const minor = standard.minors.find(({ code }) => code === standard.calls[call]?.measure)
  if (!minor?.gauges.includes(gauge) || (value !== null && !READING.test(value))) return sheet
  const before = trialAt(sheet, call)
  const others = before.readings.filter((reading) => reading.gauge !== gauge)
  const overriding = before.readings.find((reading) => reading.gauge === gauge)?.override ?? null
  const own = value === null ? null : { gauge, value, override: null as string | null }
  if (own && isOutside(standard, own)) own.override = overriding
  const readings = own ? [...others, own] : others
  const note = { ...before, readings }
  const speaks = readings.some((reading) => reading.override === null && isOutside(standard, reading))
  const marked: TrialNote =
    speaks && before.mark === null && isMarkable(standard, sheet, call)
      ? { ...note, mark: 'incorrect', byReading: true, notCalled: false }
      : !speaks && before.byReading && !isFollowed(standard, sheet, call)
        ? { ...note, mark: null, byReading: false }
        : note
  return {
    ...sheet,
    trials: { ...sheet.trials, [call]: marked },
    lastAt: marked.mark === before.mark ? sheet.lastAt : now,
  }
}

/** Does the reading lie outside its gauge's band? */
export const isOutside = (
  standard: Pick<ScoredStandard, 'gauges'>,
  reading: { readonly gauge: string; readonly value: string },
): boolean => {
  const gauge = standard.gauges.find(({ code }) => code === reading.gauge)
  return gauge !== undefined && placeInBand(gauge, reading.value) !== 'inside'
}

const withMajor = (sheet: RunningSheet, code: string, note: RunningSheet['majors'][string]): RunningSheet => ({
  ...sheet,
  majors: { ...sheet.majors, [code]: note },
})

const toggled = (codes: readonly string[], code: string): string[] =>
  codes.includes(code) ? codes.filter((other) => other !== code) : [...codes, code]

const ceased = (pauses: RunningSheet['pauses'], now: string): RunningSheet['pauses'] => {
  const last = pauses.at(-1)
  if (last && pauses.length >= MOST_PAUSES) return [...pauses.slice(0, -1), { ...last, to: null }]
  return [...pauses, { from: now, to: null }]
}

const resumed = (pauses: RunningSheet['pauses'], now: string): RunningSheet['pauses'] =>
  pauses.map((pause, index) => (index === pauses.length - 1 ? { ...pause, to: now } : pause))
