import type { PairFindings } from '#contract/findings/pairs.ts'
import { capital, countedInWords, figure, inWords, plural } from '../../words/format-number.ts'
import { ofAll } from '../../words/of-all.ts'

type Pair = PairFindings['items'][number]

/** The clearest first, over all standards; those without a figure last. */
export const clearestFirst = (pairs: readonly Pair[]): Pair[] =>
  [...pairs].sort(
    (a, b) =>
      (a.adjustedP ?? 2) - (b.adjustedP ?? 2) || (a.p ?? 2) - (b.p ?? 2) || Math.abs(b.phi ?? 0) - Math.abs(a.phi ?? 0),
  )

const together = ({ verdict }: Pair) => verdict === 'together'
const MOST_NAMED = 2

/** The answer: which pairs fail together beyond what ability makes of it, or that none does. */
export const formatPairs = (inOrder: readonly Pair[], namesOf: (pair: Pair) => readonly [string, string]): string => {
  if (inOrder.every(({ n }) => n === 0)) return 'No test counts for these filters yet.'
  const judged = inOrder.filter(({ phi }) => phi !== null)
  if (judged.length === 0) return 'Too few were failed to tell whether any fail together.'
  const clear = inOrder.filter(together)
  if (clear.length === 0)
    return 'Nothing differs by more than chance allows: no two measures fail together beyond what weak candidates make of it.'
  const named = clear.slice(0, MOST_NAMED).map((pair) => namesOf(pair).join(' and '))
  const names = clear.length > MOST_NAMED ? `most clearly ${named[0]}` : named.join('; ')
  return `${capital(countedInWords(clear.length, 'pair'))} of ${figure(judged.length)} ${plural(clear.length, 'fails', 'fail')} together beyond what weak candidates make of it: ${names}.`
}

/** What ability alone would make of the clearest, and how many of the pairs are expected to be false. */
export const formatPairsWhy = (pairs: readonly Pair[], falseShare: number): string => {
  if (pairs.every(({ phi }) => phi === null)) return 'Choose a longer period, another unit, or all attempts.'
  const apart = pairs.filter(({ verdict }) => verdict === 'apart').length
  const clear = pairs.filter(together).length
  const first = pairs.find(together)
  const base = 'Candidates are compared with others of the same score on all other measures.'
  const counts = first
    ? ` The clearest were both NO-GO in ${ofAll(first.both, first.n)}, where ability alone makes ${figure(Math.round(first.expected ?? 0))}.`
    : ''
  const falsely = Math.round((clear + apart) * falseShare)
  const wrong =
    clear + apart === 0
      ? ''
      : ` Of those named ${falsely === 0 ? 'hardly one' : `up to ${inWords(falsely)}`} may be false.`
  const rather =
    apart > 0
      ? ` ${capital(countedInWords(apart, 'pair'))} ${plural(apart, 'fails', 'fail')} apart: who fails one rather passes the other.`
      : ''
  return `${base}${counts}${wrong}${rather}`
}

/** One pair in words. */
export const formatPair = ({ verdict, reason }: Pair): string => {
  if (verdict === 'together') return 'fail together beyond what ability makes of it'
  if (verdict === 'apart') return 'fail apart: who fails one rather passes the other'
  if (verdict === 'not-shown') return 'not shown'
  if (reason === 'too-few') return 'too rarely failed to tell'
  return reason === 'no-data' ? 'no test decided both' : 'one of both always came out alike'
}

/** What the picture shows and what it does not. */
export const PAIRS_PICTURE =
  'The farther to the right, the more often who fails the one fails the other than candidates of the same score on all other measures do; at zero, ability explains all of it. Only pairs marked so differ by more than chance allows over all pairs together. A common cause may be worth a look before both are drilled apart; the picture does not say what it is.'
