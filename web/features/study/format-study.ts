import type { StudySheet } from '#contract/coaching/study.ts'
import { minimumGo } from '#scoring/minimum.ts'
import { runOfTest } from '../../domain/standards/run-of-test.ts'
import { formatDay } from '../../words/format-day.ts'
import { capital, countedInWords, figure, inWords, listed } from '../../words/format-number.ts'

type Measure = StudySheet['measures'][number]
type Standard = StudySheet['standard']

const titleOf = ({ majors, minors }: Standard, code: string): string =>
  [...minors, ...majors].find((one) => one.code === code)?.title ?? code

/** The fault of the whole standard that is noted most, of the candidate where they have any, else of the unit. */
function mostNoted({ measures, standard }: StudySheet, whose: 'own' | 'unit') {
  const all = measures.flatMap(({ measure, faults }) => faults.map((one) => ({ measure, ...one })))
  const [most] = all.filter((one) => one[whose] > 0).sort((a, b) => b[whose] - a[whose])
  if (!most) return null
  const { faults } = [...standard.majors, ...standard.minors].find(({ code }) => code === most.measure)!
  const title = faults.find(({ code }) => code === most.fault)?.title ?? most.fault
  return `${title.toLowerCase()} at ${titleOf(standard, most.measure).toLowerCase()}`
}

/** What the sheet is for, in one sentence. */
export const formatStudy = (sheet: StudySheet): string => {
  if (sheet.candidate) {
    const own = mostNoted(sheet, 'own')
    if (own) return `${sheet.candidate.name}: noted most is ${own}.`
    return sheet.candidate.tests === 0
      ? `${sheet.candidate.name} has no test of it yet.`
      : `${sheet.candidate.name}: no fault was noted in ${countedInWords(sheet.candidate.tests, 'test')}.`
  }
  const unit = mostNoted(sheet, 'unit')
  return unit ? `The unit is marked most for ${unit}.` : 'How the test runs and what is looked at.'
}

/** What it takes to pass. */
export const formatStudyWhy = ({ standard: { rule, minors, majors } }: StudySheet): string => {
  const needed = minimumGo(String(rule.percent), minors.length)
  const major =
    majors.length === 0 ? '' : ` and ${majors.length === 1 ? 'the major' : `all ${inWords(majors.length)} majors`}`
  return `To pass: ${figure(needed)} of ${countedInWords(minors.length, 'measure')}${major}; a measure is GO with ${inWords(rule.needed)} of ${inWords(rule.trials)} trials correct.`
}

/** That there was no answer, and how old the sheet on this device is; '' with a network. */
export const formatKeptSince = (keptSince: string | null, today: string): string =>
  keptSince === null
    ? ''
    : `No answer from the server; as kept on this device ${formatDay(keptSince.slice(0, 10), today)}.`

/** The order of calls, a pattern a line: "Draw, return: three times". */
export const formatRun = (standard: Standard): string[] => {
  const calls =
    standard.calls.length > 0
      ? standard.calls.map(({ measure }) => measure)
      : standard.minors.flatMap(({ code }) => Array.from({ length: standard.rule.trials }, () => code))
  return runOfTest(calls).map(({ measures, times }) => {
    const names = listed(measures.map((code) => titleOf(standard, code)))
    return times === 1 ? names : `${names}, ${measures.length === 1 ? '' : 'in turn, '}${timesInWords(times)}`
  })
}

const timesInWords = (times: number): string => (times === 2 ? 'twice' : `${inWords(times)} times`)

/** How a measure stands with the candidate: "yours: NO-GO in one of three tests". '' without one. */
export const formatOwn = ({ candidate }: StudySheet, { own }: Measure): string => {
  if (!candidate) return ''
  if (own.tested === 0) return candidate.tests === 0 ? '' : 'not reached yet'
  if (own.noGo === 0) return `GO in ${own.tested === 1 ? 'the test' : `all ${inWords(own.tested)} tests`}`
  if (own.tested === 1) return 'NO-GO in the test'
  return `NO-GO in ${inWords(own.noGo)} of ${countedInWords(own.tested, 'test')}`
}

/** A fault with how often it was noted: "Elbow bent (41, own 2)": the unit’s count first. */
export const formatFault = (title: string, { unit, own }: Measure['faults'][number], hasCandidate: boolean): string => {
  const counts = [unit > 0 ? figure(unit) : '', hasCandidate && own > 0 ? `own ${figure(own)}` : '']
  const said = counts.filter(Boolean).join(', ')
  return said === '' ? capital(title) : `${capital(title)} (${said})`
}
