import type { SheetBody } from '#contract/sheets/sheets.ts'
import type { Mark } from '#scoring/types.ts'
import type { SheetEvent } from './sheet-event.ts'
import type { SheetHead } from './sheet-head.ts'

/** What is noted on one trial. */
export interface TrialNote {
  readonly mark: Mark | null
  /** A reading outside its band made the mark; the grader has not confirmed it. */
  readonly byReading: boolean
  /** Left out because its measure was decided before it. */
  readonly notCalled: boolean
  readonly faults: readonly string[]
  readonly readings: readonly { readonly gauge: string; readonly value: string; readonly override: string | null }[]
}

export interface MajorNote {
  readonly mark: 'GO' | 'NO-GO' | null
  /** With a NO-GO: calls completed when it fell. */
  readonly atCall: number | null
  readonly faults: readonly string[]
  readonly note: string
}

/** One thing done to marks, readings, faults or major measures, with what stood there before. */
export interface Step {
  /** Counted from 1 over the whole sheet. */
  readonly number: number
  readonly event: SheetEvent
  /** The call that was shown. */
  readonly at: number
  /** What stood at the calls it changed; null: nothing yet. */
  readonly trials: Readonly<Record<number, TrialNote | null>>
  readonly majors: Readonly<Record<string, MajorNote | null>>
}

/** A test under way on this device: everything that a tap can change. Instants are RFC 3339 by the device's clock. */
export interface RunningSheet {
  readonly head: SheetHead
  /** The call that is shown, counted from 0; the number of calls when all are behind. */
  readonly at: number
  /** By place in the order of calls. */
  readonly trials: Readonly<Record<number, TrialNote>>
  readonly majors: Readonly<Record<string, MajorNote>>
  /** The last steps, the latest last, to be taken back one by one; none on a sheet begun before there were any. */
  readonly steps?: readonly Step[]
  readonly pauses: readonly { readonly from: string; readonly to: string | null }[]
  readonly void: SheetBody['void']
  readonly notes: string
  readonly acknowledged: SheetBody['acknowledged']
  readonly startedAt: string
  /** When something last happened on the field. */
  readonly lastAt: string
}

export const BLANK_TRIAL: TrialNote = { mark: null, byReading: false, notCalled: false, faults: [], readings: [] }
export const BLANK_MAJOR: MajorNote = { mark: null, atCall: null, faults: [], note: '' }

/** A sheet before its first call. */
export const startSheet = (head: SheetHead, now: string): RunningSheet => ({
  head,
  at: 0,
  trials: {},
  majors: {},
  pauses: [],
  void: null,
  notes: '',
  acknowledged: [],
  startedAt: now,
  lastAt: now,
})

export const trialAt = (sheet: Pick<RunningSheet, 'trials'>, call: number): TrialNote =>
  sheet.trials[call] ?? BLANK_TRIAL

export const majorOf = (sheet: Pick<RunningSheet, 'majors'>, code: string): MajorNote =>
  sheet.majors[code] ?? BLANK_MAJOR

/** Is the test ceased at the moment? */
export const isCeased = (sheet: Pick<RunningSheet, 'pauses'>): boolean => sheet.pauses.at(-1)?.to === null
