import { type Cell, faultsAt, isMajor } from './cells.ts'
import { BLANK_MAJOR, BLANK_MINOR, type Draft, type DraftMajor, type DraftMinor } from './draft.ts'

const withMajor = (draft: Draft, code: string, change: Partial<DraftMajor>): Draft => ({
  ...draft,
  majors: { ...draft.majors, [code]: { ...BLANK_MAJOR, ...draft.majors[code], ...change } },
})

const withMinor = (draft: Draft, code: string, change: (minor: DraftMinor) => Partial<DraftMinor>): Draft => {
  const minor = { ...BLANK_MINOR, ...draft.minors[code] }
  return { ...draft, minors: { ...draft.minors, [code]: { ...minor, ...change(minor) } } }
}

const withoutTrailingBlanks = (trials: DraftMinor['trials']): DraftMinor['trials'] =>
  trials.slice(0, trials.findLastIndex((mark) => mark !== null) + 1)

/** The sheet with a place marked, or with null blank again; a blank place keeps no fault, reading or call. */
export const mark = (draft: Draft, cell: Cell, value: 'correct' | 'incorrect' | null): Draft => {
  if (isMajor(cell)) {
    if (value === null) return withMajor(draft, cell.code, BLANK_MAJOR)
    if (value === 'correct') return withMajor(draft, cell.code, { mark: 'GO', atCall: '' })
    return withMajor(draft, cell.code, { mark: 'NO-GO' })
  }
  return withMinor(draft, cell.code, (minor) => {
    const trials = [...minor.trials]
    while (trials.length < cell.trial) trials.push(null)
    trials[cell.trial - 1] = value
    const others = <Noted extends { trial: number }>(noted: Noted[]) =>
      value === null ? noted.filter(({ trial }) => trial !== cell.trial) : noted
    return { trials: withoutTrailingBlanks(trials), faults: others(minor.faults), readings: others(minor.readings) }
  })
}

/** The sheet with a fault noted at a place, or no longer. */
export const toggleFault = (draft: Draft, cell: Cell, fault: string): Draft => {
  const noted = faultsAt(draft, cell).includes(fault)
  if (isMajor(cell)) {
    const faults = draft.majors[cell.code]?.faults ?? []
    return withMajor(draft, cell.code, { faults: noted ? faults.filter((code) => code !== fault) : [...faults, fault] })
  }
  return withMinor(draft, cell.code, ({ faults }) => ({
    faults: noted
      ? faults.filter(({ trial, code }) => trial !== cell.trial || code !== fault)
      : [...faults, { trial: cell.trial, code: fault }],
  }))
}

/** The sheet with these faults and no others at a place. */
export const setFaults = (draft: Draft, cell: Cell, codes: readonly string[]): Draft => {
  if (isMajor(cell)) return withMajor(draft, cell.code, { faults: [...codes] })
  return withMinor(draft, cell.code, ({ faults }) => ({
    faults: [
      ...faults.filter(({ trial }) => trial !== cell.trial),
      ...codes.map((code) => ({ trial: cell.trial, code })),
    ],
  }))
}

/** The sheet with the call after which a major measure fell, as typed. */
export const setAtCall = (draft: Draft, code: string, atCall: string): Draft => withMajor(draft, code, { atCall })

/** The sheet with a reading of one gauge on one trial, as typed; an empty value takes it away. */
export const setReading = (draft: Draft, cell: Cell, gauge: string, value: string, override: string | null): Draft =>
  withMinor(draft, cell.code, ({ readings }) => {
    const others = readings.filter((reading) => reading.trial !== cell.trial || reading.gauge !== gauge)
    return { readings: value === '' ? others : [...others, { trial: cell.trial, gauge, value, override }] }
  })
