import type { SheetSummary } from '#contract/sheets/sheets.ts'
import type { CertificationStatus, Retest } from '#contract/standards/certifications.ts'
import { formatDay, formatDayInFull } from '../../words/format-day.ts'
import { capital, counted, countedInWords, inWords, listed, plural } from '../../words/format-number.ts'
import { entersStatus } from './attempt-rows.ts'
import type { FaultNoted, WeakMeasure } from './weak-spots.ts'

interface Titles {
  certification: (code: string) => string
  standard: (code: string) => string
}

interface Known {
  /** How the sentence calls the soldier: "SGT Ashdown". */
  name: string
  statuses: readonly CertificationStatus[]
  /** The newest first. */
  sheets: readonly SheetSummary[]
  titles: Titles
  /** The standard whose attempts the page shows. */
  shown?: string
  today: string
}

const formatRetest = (sheet: SheetSummary | undefined, { name, titles, today }: Known, standard: string): string => {
  if (!sheet) return `${name} has a retest open in ${titles.standard(standard)}.`
  const { result, day } = sheet
  const when = day === today ? 'today' : `on ${formatDayInFull(day, today)}`
  const title = titles.standard(standard)
  if (result.ending === 'stopped') return `${name} was stopped ${when} in ${title}: a major measure was NO-GO.`
  if (result.ending !== 'completed' || result.minimum === null) return `${name} was NO-GO ${when} in ${title}.`
  const short = result.minimum - result.go
  return `${name} was ${inWords(short)} ${plural(short, 'measure')} short ${when} in ${title}.`
}

/** The answer on a candidate's page: what stands between them and the certification, or that nothing does. */
export const formatCandidate = (known: Known): string => {
  const { name, statuses, sheets, titles, today } = known
  if (statuses.length === 0) return `No certification fits ${name} today.`
  const suspended = statuses.filter(({ suspended }) => suspended)
  if (suspended.length > 0) {
    return `${name} is suspended in ${listed(suspended.map(({ certification }) => titles.certification(certification)))}.`
  }
  const open = statuses.flatMap(({ retestOpen }) => retestOpen)
  if (open.length > 0) {
    const standard = known.shown && open.includes(known.shown) ? known.shown : open[0]!
    const last = sheets.find((sheet) => entersStatus(sheet) && sheet.body.standard === standard)
    return formatRetest(last, known, standard)
  }
  const waiting = statuses.find(({ status }) => status === 'awaiting approval')
  if (waiting) {
    return `${name} has passed for ${titles.certification(waiting.certification)} and waits for the unit’s commander to sign.`
  }
  const partWay = statuses.find(({ status }) => status === 'part way')
  if (partWay) {
    const title = titles.certification(partWay.certification)
    return `${name} is part way to ${title}: ${listed(partWay.toward.map(({ standard }) => titles.standard(standard)))} ${plural(partWay.toward.length, 'is', 'are')} in.`
  }
  const certified = statuses.filter(({ status }) => status === 'certified')
  const without = statuses.filter(({ status }) => status !== 'certified')
  if (certified.length === 0) {
    const lapsed = without.find(({ status }) => status === 'lapsed')
    if (!lapsed?.validThrough) return `${name} has no test yet.`
    return `${name}’s certification in ${titles.certification(lapsed.certification)} lapsed after ${formatDayInFull(lapsed.validThrough, today)}.`
  }
  const first = [...certified].sort((a, b) => (a.validThrough ?? '').localeCompare(b.validThrough ?? ''))[0]!
  const held = listed(certified.map(({ certification }) => titles.certification(certification)))
  const until = first.validThrough ? formatDayInFull(first.validThrough, today) : ''
  if (certified.length === 1) return `${name} is certified in ${held} through ${until}.`
  return `${name} is certified in ${held}; ${titles.certification(first.certification)} lapses first, after ${until}.`
}

/** When the retest may be and by when it must, in one sentence. */
export const formatRetestDates = (retest: Retest, standardTitle: string, today: string): string => {
  const due = formatDay(retest.due, today)
  const review = retest.needsReview ? ` A review comes first: ${counted(retest.noGosInARow, 'NO-GO')} in a row.` : ''
  const from = retest.earliest > today ? `from ${formatDay(retest.earliest, today)}` : 'any day'
  const dates = retest.pastDue ? `was due by ${due} and is past due` : `can be taken ${from} and is due by ${due}`
  return `The retest in ${standardTitle} ${dates}.${review}`
}

/** What keeps failing, from the tests that count: the measure and the fault noted most. */
export const formatWeakSpots = (
  tests: number,
  weak: readonly WeakMeasure[],
  faults: readonly FaultNoted[],
  titleOf: { measure: (code: string) => string; fault: (measure: string, code: string) => string },
): string => {
  if (tests === 0) return ''
  const [worst] = weak
  if (!worst) return `In ${countedInWords(tests, 'test')} no measure was NO-GO.`
  const next = weak[1]
  const also = next && next.noGo === worst.noGo && !weak[2]?.noGo ? ` and ${titleOf.measure(next.measure)}` : ''
  const times = worst.noGo === 1 ? 'once' : worst.noGo === 2 ? 'twice' : `${inWords(worst.noGo)} times`
  const noted = faults[0]
    ? ` Noted most: ${titleOf.fault(faults[0].measure, faults[0].fault)}, on ${countedInWords(faults[0].times, 'trial')}.`
    : ''
  return capital(
    `${titleOf.measure(worst.measure)}${also} ${also ? 'were' : 'was'} NO-GO ${times} in ${countedInWords(worst.tested, 'test')}.${noted}`,
  )
}
