import type { Agreement, AgreementFindings } from '#contract/findings/agreement.ts'
import type { GraderFindings } from '#contract/findings/graders.ts'
import { capital, counted, countedInWords, figure, inWords, listed, plural } from '../../words/say-number.ts'
import { sayCoefficient, sayCoefficients, sayShare } from '../../words/say-share.ts'

type Grader = GraderFindings['items'][number]

/** The answer: how many graders differ from what the unit's own rates would give. */
export const sayGraders = (graders: readonly Pick<Grader, 'against'>[]): string => {
  const compared = graders.filter(({ against }) => against !== null)
  if (graders.length === 0) return 'No graded test counts for these filters yet.'
  if (compared.length === 0) return 'Nobody’s grading can be compared: no two graders had attempts of the same kind.'
  const differ = compared.filter(({ against }) => against?.verdict === 'differs').length
  if (compared.length === 1)
    return `The one grader here ${differ ? 'differs' : 'does not differ'} from the unit’s own rates.`
  if (differ === 0)
    return `None of ${figure(compared.length)} graders gives GO more or less often than chance would make it.`
  return `${capital(inWords(differ))} of ${figure(compared.length)} graders ${plural(differ, 'gives', 'give')} GO more or less often than chance would make it.`
}

/** How many would differ by chance, and what else may be behind it. */
export const sayGradersWhy = (graders: readonly Pick<Grader, 'against'>[]): string => {
  if (graders.length === 0) return 'Choose a longer period, another unit, or all attempts.'
  const byChance = Math.floor(graders.length * 0.05)
  const chance = byChance > 0 ? `Up to ${inWords(byChance)} of so many would differ by chance alone. ` : ''
  return `${chance}Held against the unit’s own rates for the same arms, standards and attempts; who comes to whom is not drawn by lot, so a difference is a question, no verdict.`
}

/** One grader in words: "with 61 attempts this can’t be told from what is expected". */
export const sayOneGrader = ({ against }: Pick<Grader, 'against'>): string => {
  if (against === null) return 'nothing to compare with'
  const few = against.few ? '; fewer than five' : ''
  if (against.verdict === 'within')
    return `with ${counted(against.attempts, 'attempt')} this can’t be told from the unit’s own rates${few}`
  return `${against.side === 'above' ? 'more' : 'less'} GO than the unit’s own rates would give${against.differsAt === 0.998 ? ', by far' : ''}`
}

/** Observed passes beside those expected of the same kinds of attempts: "9 where 8.0 are expected, 4 to 12 usual". */
export const sayExpected = ({ against, notComparable }: Pick<Grader, 'against' | 'notComparable'>): string => {
  const alone =
    notComparable.attempts > 0 ? `${counted(notComparable.attempts, 'attempt')} of a kind nobody else has` : ''
  if (against === null) return alone || 'nothing to compare with'
  const { observed, expected, usual, verdict } = against
  const differs = verdict === 'differs' ? ': differs' : ''
  const words = `${figure(observed)} where ${expected.toFixed(1)} are expected (${figure(usual.low)} to ${figure(usual.high)} usual)${differs}`
  return alone ? `${words}; besides ${alone}` : words
}

const WHY_NONE: Record<NonNullable<Agreement['reason']>, string> = {
  'no-data': 'undefined: no attempt',
  'one-category': 'undefined: all marks alike',
}

/** A coefficient of agreement in words; what is undefined is said so. */
export const sayAgreement = ({ value, interval, reason }: Agreement): string => {
  if (value === null) return WHY_NONE[reason ?? 'no-data']
  if (interval === null) return `${sayCoefficient(value)}, never disagreed`
  return `${sayCoefficient(value)}, ${sayCoefficients(interval)}`
}

/** How often graders agree on the outcome of whole tests, over all standards, and on what that rests. */
export const sayTwiceGraded = ({ items, basis }: Pick<AgreementFindings, 'items' | 'basis'>): string => {
  if (basis.attempts === 0)
    return 'No attempt was graded twice within these filters. Two graders on the same attempt show how alike they grade.'
  const tests = items.filter(({ measure }) => measure === null)
  const all = tests.reduce((sum, { attempts }) => sum + attempts, 0)
  const same = tests.reduce((sum, { table }) => sum + table.bothGo + table.bothNoGo, 0)
  const left = [
    basis.leftOut.firstNotCounted > 0
      ? `${figure(basis.leftOut.firstNotCounted)} whose first sheet does not count`
      : '',
    basis.leftOut.notCounted > 0 ? `${figure(basis.leftOut.notCounted)} held or rejected` : '',
    basis.leftOut.void > 0 ? `${figure(basis.leftOut.void)} void` : '',
    basis.leftOut.recorded > 0 ? `${figure(basis.leftOut.recorded)} without marks` : '',
    basis.leftOut.notTheSameTest > 0 ? `${figure(basis.leftOut.notTheSameTest)} not of the same test` : '',
  ].filter(Boolean)
  const share = all > 0 ? `; on the outcome both agreed in ${figure(same)} (${sayShare(same / all)})` : ''
  return `${capital(countedInWords(basis.attempts, 'attempt'))} ${plural(basis.attempts, 'was', 'were')} graded twice${share}. A dot is the agreement beyond chance (AC1): 1 is perfect, 0 is what chance gives. With few attempts the lines are long, and nothing is shown about who is right.${left.length > 0 ? ` Left out: ${listed(left)}.` : ''}`
}
