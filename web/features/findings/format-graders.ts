import type { Agreement, AgreementFindings } from '#contract/findings/agreement.ts'
import type { GraderFindings } from '#contract/findings/graders.ts'
import { capital, counted, countedInWords, figure, inWords, listed, plural } from '../../words/format-number.ts'
import { formatCoefficient, formatCoefficients, formatShare } from '../../words/format-share.ts'

type Grader = GraderFindings['items'][number]
type Verdict = Pick<Grader, 'grade' | 'name' | 'differs' | 'twice' | 'severity'>

/** Whether a grader marks otherwise than chance allows, once candidates are allowed for. */
export const isCalled = ({ differs }: Pick<Grader, 'differs'>): boolean => differs === 'above' || differs === 'below'

/** Graders as the list has them: those who differ first, then by name. */
export const gradersInOrder = (graders: readonly Grader[]): Grader[] =>
  [...graders].sort((a, b) => Number(isCalled(b)) - Number(isCalled(a)) || a.name.localeCompare(b.name, 'en'))

const MOST_NAMED = 3
const named = (graders: readonly Verdict[], how: string): string => {
  if (graders.length === 0) return ''
  const names = graders.map(({ grade, name }) => `${grade} ${name.split(',')[0]}`)
  return names.length > MOST_NAMED ? `${inWords(names.length)} ${how}` : `${listed(names)} ${how}`
}

/** The answer: who grades more strictly or more leniently than chance allows, or that nobody does. */
export const formatGraders = (graders: readonly Verdict[]): string => {
  if (graders.length === 0) return 'No graded test counts for these filters yet.'
  const asked = graders.filter(({ differs }) => differs !== 'few')
  if (asked.length === 0) return 'Nothing can be told about any grader yet.'
  const called = asked.filter(isCalled)
  if (called.length === 0)
    return `Nothing differs by more than chance allows: none of ${figure(asked.length)} graders can be told from the others.`
  const who = [
    named(
      called.filter(({ differs }) => differs === 'above'),
      'stricter',
    ),
    named(
      called.filter(({ differs }) => differs === 'below'),
      'more lenient',
    ),
  ].filter(Boolean)
  return `${capital(inWords(called.length))} of ${figure(asked.length)} graders ${plural(called.length, 'differs', 'differ')} by more than chance allows: ${who.join('; ')}.`
}

/** What was allowed for, and what double grading adds. */
export const formatGradersWhy = (graders: readonly Verdict[]): string => {
  if (graders.length === 0) return 'Choose a longer period, another unit, or all attempts.'
  if (graders.every(({ severity }) => severity === null))
    return 'How strict graders are is worked out in the background from all tests with marks; look again in some minutes.'
  const twice = graders.filter((one) => one.twice && one.twice.differs !== 'no')
  const direct =
    twice.length > 0
      ? ` On attempts graded twice: ${[
          named(
            twice.filter((one) => one.twice?.differs === 'stricter'),
            'stricter than the other grader',
          ),
          named(
            twice.filter((one) => one.twice?.differs === 'lenient'),
            'more lenient',
          ),
        ]
          .filter(Boolean)
          .join('; ')}.`
      : ''
  return `Worked out from every trial, the candidates’ ability, the measures and the kind of attempt allowed for, over all tests on record.${direct} Who is right it cannot tell: talk about the measures, not about the person.`
}

/** One grader in words. */
export const formatOneGrader = ({
  differs,
  severity,
  attempts,
}: Pick<Grader, 'differs' | 'severity' | 'attempts'>): string => {
  if (severity === null) return 'not worked out yet'
  if (differs === 'few') return `${counted(attempts, 'attempt')}: too few to tell anything`
  if (differs === 'no') return `with ${counted(attempts, 'attempt')} this can’t be told from the others`
  return `${differs === 'above' ? 'stricter' : 'more lenient'} than the others, by more than chance allows`
}

/** What the severity makes of a hundred trials: "76 of 100 trials correct, 72 to 80; the average grader 79". */
export const formatCorrect = ({ correct }: Pick<Grader, 'correct'>, usual: number | null): string => {
  if (correct === null || usual === null) return ''
  const of = (share: number) => Math.round(share * 100)
  return `${of(correct.rate)} of 100 trials correct, ${of(correct.low)} to ${of(correct.high)}; the average grader ${of(usual)}`
}

/** Who was stricter where another graded, too: "stricter on 6, more lenient on 1 of 9". */
export const formatTwice = ({ twice }: Pick<Grader, 'twice'>): string => {
  if (twice === null) return 'none'
  const { attempts, stricter, lenient, differs } = twice
  const counts = `stricter on ${figure(stricter)}, more lenient on ${figure(lenient)} of ${figure(attempts)}`
  return differs === 'no' ? counts : `${counts}: more than chance allows`
}

const WHY_NONE: Record<NonNullable<Agreement['reason']>, string> = {
  'no-data': 'undefined: no attempt',
  'one-category': 'undefined: all marks alike',
}

/** A coefficient of agreement in words; what is undefined is said so. */
export const formatAgreement = ({ value, interval, reason }: Agreement): string => {
  if (value === null) return WHY_NONE[reason ?? 'no-data']
  if (interval === null) return `${formatCoefficient(value)}, never disagreed`
  return `${formatCoefficient(value)}, ${formatCoefficients(interval)}`
}

/** How often graders agree on the outcome of whole tests, over all standards, and on what that rests. */
export const formatTwiceGraded = ({ items, basis }: Pick<AgreementFindings, 'items' | 'basis'>): string => {
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
  const share = all > 0 ? `; on the outcome both agreed in ${figure(same)} (${formatShare(same / all)})` : ''
  return `${capital(countedInWords(basis.attempts, 'attempt'))} ${plural(basis.attempts, 'was', 'were')} graded twice${share}. A dot is the agreement beyond chance (AC1): 1 is perfect, 0 is what chance gives. With few attempts the lines are long, and nothing is shown about who is right.${left.length > 0 ? ` Left out: ${listed(left)}.` : ''}`
}
