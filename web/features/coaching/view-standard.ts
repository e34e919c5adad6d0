import type { SheetSummary } from '#contract/sheets/sheets.ts'
import type { Retest } from '#contract/standards/certifications.ts'
import type { Standard } from '#contract/standards/standards.ts'
import { faultTitle, measureTitle, standardTitle, versionsOf } from '../../domain/standards/titles.ts'
import { capital, countedInWords, inWords, plural } from '../../words/format-number.ts'
import { type AttemptRow, attemptRows, entersStatus } from './attempt-rows.ts'
import { formatRetestDates, formatWeakSpots } from './format-candidate.ts'
import { type GaugeLines, gaugeLines } from './gauge-lines.ts'
import { type FaultNoted, faultsNoted, weakMeasures } from './weak-spots.ts'

export interface StandardView {
  title: string
  measures: readonly { code: string; title: string }[]
  rows: AttemptRow[]
  gauges: GaugeLines[]
  faults: FaultNoted[]
  /** Tests with marks that enter the status. */
  tests: number
  /** One sentence or two: when the retest is, what keeps failing, what is held. */
  why: string
  measureTitle: (measure: string) => string
  faultTitle: (measure: string, fault: string) => string
}

const formatHeld = (held: number): string =>
  held === 0
    ? ''
    : `${capital(countedInWords(held, 'sheet'))} ${plural(held, 'is held and counts', 'are held and count')} for nothing yet.`

/** What there is to show of a candidate under one standard; sheets come the newest first, of any standard. */
export const viewStandard = (
  code: string,
  sheets: readonly SheetSummary[],
  retests: readonly Retest[],
  standards: readonly Standard[],
  today: string,
): StandardView => {
  const newest = versionsOf(standards, code)[0]
  const own = sheets.filter(({ body }) => body.standard === code)
  const measures = newest?.minors ?? []
  const faults = faultsNoted(own)
  const tests = own.filter((sheet) => entersStatus(sheet) && sheet.result.ending !== 'recorded').length
  const titles = {
    measure: (measure: string) => measureTitle(standards, code, measure),
    fault: (measure: string, fault: string) => faultTitle(standards, code, measure, fault),
  }
  const retest = retests.find(({ standard }) => standard === code)
  const why = [
    retest ? formatRetestDates(retest, standardTitle(standards, retest.standard), today) : '',
    formatWeakSpots(tests, weakMeasures(own), faults, titles),
    formatHeld(own.filter(({ state }) => state === 'held').length),
  ]
  return {
    title: newest?.title ?? 'Attempts',
    measures,
    rows: attemptRows(own, standards, measures),
    gauges: newest ? gaugeLines(own, standards, newest) : [],
    faults,
    tests,
    why: why.filter(Boolean).join(' '),
    measureTitle: titles.measure,
    faultTitle: titles.fault,
  }
}

/** The fault noted on most trials of a measure: "tip low, 3 times"; '' where none was noted. */
export const formatMostNoted = ({ faults, faultTitle }: StandardView, measure: string): string => {
  const [most] = faults.filter((one) => one.measure === measure)
  return most ? `${faultTitle(measure, most.fault)}, ${most.times === 1 ? 'once' : `${inWords(most.times)} times`}` : ''
}
