import type { Basis } from '#contract/findings/basis.ts'
import { counted, figure, listed } from '../../words/format-number.ts'

/** What an answer rests on and what it leaves out: "Rests on 1,204 attempts. Left out: 31 without marks, 12 held." */
export const formatBasis = ({ attempts, stopped, recorded, notCounted }: Basis): string => {
  const left = [
    recorded > 0 ? `${figure(recorded)} known by outcome only, without marks` : '',
    notCounted.held > 0 ? `${figure(notCounted.held)} held` : '',
    notCounted.rejected > 0 ? `${figure(notCounted.rejected)} rejected` : '',
    notCounted.void > 0 ? `${figure(notCounted.void)} void` : '',
    notCounted.secondGrader > 0 ? `${figure(notCounted.secondGrader)} of a second grader` : '',
    notCounted.practice > 0 ? `${figure(notCounted.practice)} for practice` : '',
  ].filter(Boolean)
  const sentences =
    attempts === 0
      ? ['Rests on no attempt.']
      : [`Rests on ${counted(attempts, 'attempt')}; intervals hold with 95\u00a0% confidence.`]
  if (stopped > 0) {
    const ended = stopped === 1 ? 'One of them was stopped' : `${figure(stopped)} of them were stopped`
    sentences.push(`${ended} by a major measure; what was not reached there is not tested, never failed.`)
  }
  if (left.length > 0) sentences.push(`In no figure about measures: ${listed(left)}.`)
  return sentences.join(' ')
}
