import type { MajorNote, RunningSheet, Step, TrialNote } from './running-sheet.ts'
import type { SheetEvent } from './sheet-event.ts'

/** As many steps as a sheet remembers; it is written whole at every tap. */
const MOST_STEPS = 20

/** The last step of a sheet, which "undo" takes back; undefined where none is left. */
export const lastStep = (sheet: Pick<RunningSheet, 'steps'>): Step | undefined => sheet.steps?.at(-1)

const changed = <Note>(
  before: Readonly<Record<string, Note>>,
  after: Readonly<Record<string, Note>>,
): Record<string, Note | null> =>
  Object.fromEntries(
    Object.entries(after).flatMap(([key, note]) => (isSame(before[key], note) ? [] : [[key, before[key] ?? null]])),
  )

const isSame = (before: unknown, after: unknown): boolean =>
  before === after || JSON.stringify(before) === JSON.stringify(after)

/** Is this one more step at the same reading, as somebody taps plus and minus? */
const goesOn = (last: SheetEvent | undefined, event: SheetEvent): boolean =>
  last?.kind === 'reading' && event.kind === 'reading' && last.call === event.call && last.gauge === event.gauge

/** The sheet after an event, with the step remembered where the event changed marks, readings, faults or major measures. */
export const withStep = (before: RunningSheet, after: RunningSheet, event: SheetEvent): RunningSheet => {
  if (before.trials === after.trials && before.majors === after.majors) return after
  const trials = changed<TrialNote>(before.trials, after.trials)
  const majors = changed<MajorNote>(before.majors, after.majors)
  if (Object.keys(trials).length + Object.keys(majors).length === 0) return after
  const steps = before.steps ?? []
  const last = steps.at(-1)
  if (last && goesOn(last.event, event)) return { ...after, steps: [...steps.slice(0, -1), { ...last, event }] }
  const step: Step = {
    number: (last?.number ?? 0) + 1,
    event,
    at: before.at,
    trials,
    majors,
  }
  return { ...after, steps: [...steps, step].slice(-MOST_STEPS) }
}

const restored = <Note>(
  notes: Readonly<Record<string, Note>>,
  before: Readonly<Record<string, Note | null>>,
): Record<string, Note> => {
  const next = { ...notes }
  for (const [key, note] of Object.entries(before)) {
    if (note === null) delete next[key]
    else next[key] = note
  }
  return next
}

/** The sheet without its last step: marks, readings, faults and major measures as they stood before it, at the call where it was made. */
export const withoutLastStep = (sheet: RunningSheet, number: number, now: string): RunningSheet => {
  const step = lastStep(sheet)
  if (step?.number !== number) return sheet
  return {
    ...sheet,
    at: step.at,
    trials: restored(sheet.trials, step.trials),
    majors: restored(sheet.majors, step.majors),
    steps: sheet.steps!.slice(0, -1),
    lastAt: now,
  }
}
