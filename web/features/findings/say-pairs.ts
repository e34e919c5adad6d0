import type { PairFindings } from '#contract/findings/pairs.ts'
import { ofAll } from '../../words/of-all.ts'
import { capital, counted, figure, inWords, plural } from '../../words/say-number.ts'

type Pair = PairFindings['items'][number]

/** Both NO-GO so often, were the two measures independent. */
export const bothByChance = ({ n, both, firstOnly, secondOnly }: Pair): number =>
  n === 0 ? 0 : ((both + firstOnly) * (both + secondOnly)) / n

/** The clearest first, over all standards; those without a figure last. */
export const clearestFirst = (pairs: readonly Pair[]): Pair[] =>
  [...pairs].sort(
    (a, b) =>
      (a.adjustedP ?? 2) - (b.adjustedP ?? 2) || (a.p ?? 2) - (b.p ?? 2) || Math.abs(b.phi ?? 0) - Math.abs(a.phi ?? 0),
  )

const together = ({ verdict }: Pair) => verdict === 'together'

/** The answer: the pair that most clearly fails together. */
export const sayPairs = (inOrder: readonly Pair[], namesOf: (pair: Pair) => readonly [string, string]): string => {
  if (inOrder.every(({ n }) => n === 0)) return 'No test counts for these filters yet.'
  const first = inOrder.find(together)
  if (!first) return 'No two measures fail together more often than chance would have it.'
  const [one, other] = namesOf(first)
  return `${one} and ${other} fail together most clearly: both NO-GO in ${ofAll(first.both, first.n)} tests.`
}

/** How many pairs are clear, and how many of these are expected to be false. */
export const sayPairsWhy = (pairs: readonly Pair[], falseShare: number): string => {
  const defined = pairs.filter(({ phi }) => phi !== null).length
  if (defined === 0) return 'Choose a longer period, another unit, or all attempts.'
  const clear = pairs.filter(together).length
  const apart = pairs.filter(({ verdict }) => verdict === 'apart').length
  const first = pairs.find(together)
  const chance = first ? `Chance would have it in ${figure(Math.round(bothByChance(first)))}. ` : ''
  const found = `${capital(inWords(clear))} of ${counted(defined, 'pair')} ${plural(clear, 'is', 'are')} clear`
  const falsely = Math.round((clear + apart) * falseShare)
  return `${chance}${found}${clear + apart === 0 ? '' : `, of which ${falsely === 0 ? 'hardly one' : `up to ${inWords(falsely)}`} may be false`}.${apart > 0 ? ` ${capital(inWords(apart))} fail apart.` : ''}`
}

/** One pair in words. */
export const sayPair = ({ verdict, reason }: Pair): string => {
  if (verdict === 'together') return 'fail together'
  if (verdict === 'apart') return 'fail apart: who fails one rather passes the other'
  if (verdict === 'not-shown') return 'not shown'
  return reason === 'no-data' ? 'no test decided both' : 'one of both always came out alike'
}

/** What the picture shows and what it does not. */
export const PAIRS_PICTURE =
  'The farther to the right, the more often who fails the one fails the other; at nought it is as chance has it. Most pairs lie somewhat to the right, since weak candidates fail more of everything. A common cause may be worth a look before both are drilled apart; the picture does not say what it is.'
