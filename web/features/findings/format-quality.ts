import type { Coefficient, QualityFindings } from '#contract/findings/quality.ts'
import { capital, counted, figure, inWords, listed, plural } from '../../words/format-number.ts'
import { formatCoefficient, formatCoefficients, formatShare } from '../../words/format-share.ts'

type Quality = QualityFindings['items'][number]
type Remark = Quality['measures'][number]['remarks'][number]

const WHY_NONE: Record<NonNullable<Coefficient['reason']>, string> = {
  'no-data': 'no test to work it out from',
  'one-sheet': 'one test alone does not give it',
  'one-item': 'one measure alone does not give it',
  'no-variation': 'all tests came out alike',
  'item-never-varies': 'came out alike for everybody',
  'rest-never-varies': 'the other measures came out alike for everybody',
}

/** A coefficient with its interval, or why there is none. */
export const formatCoefficientOf = ({ value, interval, reason }: Coefficient): string => {
  if (value === null) return `undefined: ${WHY_NONE[reason ?? 'no-data']}`
  return interval ? `${formatCoefficient(value)}, ${formatCoefficients(interval)}` : formatCoefficient(value)
}

const REMARKS: Record<Remark, string> = {
  'everybody-alike': 'came out alike for everybody, so it tells nobody apart',
  'works-against-the-rest': 'works against the rest: who passes it rather fails the others',
  'reliability-rises-without': 'the test would tell more surely without it, by more than chance allows',
}

export const formatRemarks = (remarks: readonly Remark[]): string => listed(remarks.map((remark) => REMARKS[remark]))

/** By how much KR-20 is higher without a measure: "+0.02, −0.01 to 0.05"; '' where it is not defined. */
export const formatChange = (change: Quality['measures'][number]['change']): string =>
  change === null
    ? ''
    : `${change.value > 0 ? '+' : ''}${formatCoefficient(change.value)}, ${formatCoefficients(change.interval)}`

/** The answer: how much of the difference between scores is real. */
export const formatQuality = (quality: Quality | undefined, title: string): string => {
  if (!quality) return 'No test counts for these filters yet.'
  const { value, reason } = quality.reliability
  if (value === null)
    return `${title}: how surely it tells candidates apart is not known, ${WHY_NONE[reason ?? 'no-data']}.`
  if (value <= 0) return `${title}: scores differ no more than chance makes them.`
  return `${title}: ${formatShare(value)} of the differences between scores are real, the rest is chance.`
}

/** The coefficient behind it, and what is left out. */
export const formatQualityWhy = (quality: Quality | undefined): string => {
  if (!quality) return 'Choose a longer period, another unit, or all attempts.'
  const { reliability, sheets, leftOut } = quality
  const coefficient =
    reliability.value === null ? '' : `KR-20 is ${formatCoefficientOf(reliability)} with 95\u00a0% confidence. `
  const left = [
    leftOut.undecided > 0 ? `${figure(leftOut.undecided)} in which not every measure was decided` : '',
    leftOut.recorded > 0 ? `${figure(leftOut.recorded)} known by outcome only` : '',
  ].filter(Boolean)
  return `${coefficient}From ${counted(sheets, 'test')} carried through${left.length > 0 ? `; left out ${listed(left)}` : ''}.`
}

/** What the picture shows and what it does not. */
export const formatQualityPicture = ({ measures }: Pick<Quality, 'measures'>): string => {
  const rises = measures.filter(({ remarks }) => remarks.includes('reliability-rises-without')).length
  const against = measures.filter(({ remarks }) => remarks.includes('works-against-the-rest')).length
  const alike = measures.filter(({ remarks }) => remarks.includes('everybody-alike')).length
  const notes = [
    against > 0 ? `${inWords(against)} ${plural(against, 'works', 'work')} against the rest` : '',
    rises > 0 ? `${inWords(rises)} would not be missed by the score` : '',
    alike > 0 ? `${inWords(alike)} came out alike for everybody` : '',
  ].filter(Boolean)
  const found = notes.length > 0 ? ` ${capital(listed(notes))}.` : ''
  return `The farther to the right, the better a measure tells who does well on all the others (item-rest correlation).${found} That is about telling candidates apart, not about what they must be able to do: a measure near zero can be needed all the same.`
}
