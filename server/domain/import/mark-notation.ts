import type { Mark, Reading, TrialFault } from '../scoring/types.ts'
import { joinList, splitList } from './list-notation.ts'

/** What was read from a cell, or what is wrong with it. */
export type Parsed<Value> = { readonly value: Value } | { readonly wrong: string }

const SIGNS = { '1': 'correct', '0': 'incorrect', '.': null } as const

/** The trials of a measure: `1` correct, `0` incorrect, `.` blank, as in `101` or `00.`. */
export function parseTrials(text: string): Parsed<(Mark | null)[]> {
  const signs = [...text.replace(/\s/g, '')]
  const odd = signs.find((sign) => !(sign in SIGNS))
  if (odd !== undefined) return { wrong: `Trials are written with 1, 0 and . as in 101; "${odd}" is none of them.` }
  return { value: signs.map((sign) => SIGNS[sign as keyof typeof SIGNS]) }
}

export const printTrials = (trials: readonly (Mark | null)[]): string =>
  trials.map((mark) => (mark === null ? '.' : mark === 'correct' ? '1' : '0')).join('')

/** The faults of a measure, each with its trial: `2:forearm-off;3:slow`. */
export function parseFaults(text: string): Parsed<TrialFault[]> {
  const faults: TrialFault[] = []
  for (const item of splitList(text)) {
    const [, trial, code] = /^(\d{1,2})\s*:\s*(\S+)$/.exec(item) ?? []
    if (code === undefined)
      return { wrong: `Faults are written as trial:fault, as in 2:forearm-off; "${item}" is not.` }
    faults.push({ trial: Number(trial), code })
  }
  return { value: faults }
}

export const printFaults = (faults: readonly TrialFault[]): string =>
  joinList(faults.map(({ trial, code }) => `${trial}:${code}`))

/**
 * The readings of a measure: `1:5.0;3:6.1` where it has one gauge, `1:tip-height=5.0` where it has several. A reason after
 * an exclamation mark lets the grader's mark stand: `1:6.5!wind`. A decimal comma is taken for a point.
 */
export function parseReadings(text: string, gauges: readonly string[]): Parsed<Reading[]> {
  const readings: Reading[] = []
  for (const item of splitList(text)) {
    const found = /^(\d{1,2})\s*:\s*(?:([^=!\s]+)\s*=\s*)?(-?\d{1,4}(?:[.,]\d{1,4})?)\s*(?:!([\s\S]*))?$/.exec(item)
    if (!found) return { wrong: `Readings are written as trial:value, as in 1:5.0; "${item}" is not.` }
    const gauge = found[2] ?? (gauges.length === 1 ? gauges[0] : undefined)
    if (gauge === undefined) {
      const remedy = gauges.length === 0 ? 'This measure has no gauge.' : `Say which gauge: 1:${gauges[0]}=5.0.`
      return { wrong: `"${item}" names no gauge. ${remedy}` }
    }
    readings.push({ trial: Number(found[1]), gauge, value: found[3]!.replace(',', '.'), override: found[4] ?? null })
  }
  return { value: readings }
}

export const printReadings = (readings: readonly Reading[], gauges: readonly string[]): string =>
  joinList(
    readings.map(({ trial, gauge, value, override }) => {
      const name = gauges.length === 1 && gauges[0] === gauge ? '' : `${gauge}=`
      return `${trial}:${name}${value}${override == null ? '' : `!${override}`}`
    }),
  )
