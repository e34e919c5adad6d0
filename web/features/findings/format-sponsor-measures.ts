import type { SponsorMeasures } from '#contract/findings/sponsor-measures.ts'
import { capital, inWords, listed, plural } from '../../words/format-number.ts'
import { formatShare } from '../../words/format-share.ts'
import { ofAll } from '../../words/of-all.ts'

type Measure = SponsorMeasures['items'][number]

const MOST_NAMED = 3

/** What the candidates fail more than others of the kind, or that nothing stands out. */
export const formatSponsorMeasures = (items: readonly Measure[], titleOf: (measure: Measure) => string): string => {
  const tested = items.filter(({ own }) => own.n > 0)
  if (tested.length === 0) return 'None of their tests with marks lies within these filters.'
  const more = tested.filter(({ differs }) => differs === 'more')
  const most = tested.filter(({ own }) => !own.few).toSorted((a, b) => (b.own.rate ?? 0) - (a.own.rate ?? 0))[0]
  const worst =
    most && most.own.count > 0 ? ` NO-GO most often: ${titleOf(most)}, ${ofAll(most.own.count, most.own.n)}.` : ''
  if (more.length === 0)
    return `Nothing differs by more than chance allows: no measure stands out against such candidates of others.${worst}`
  const names = more.slice(0, MOST_NAMED).map(titleOf)
  const rest = more.length - names.length
  return `${listed(rest > 0 ? [...names, `${inWords(rest)} more`] : names)} ${plural(more.length, 'is', 'are')} failed more often than such candidates of others fail ${plural(more.length, 'it', 'them')}.${worst}`
}

/** One measure in words. */
export const formatSponsorMeasure = ({ differs, expected }: Measure): string => {
  const such = expected === null ? '' : `; such candidates of others ${expected.toFixed(1)}`
  if (differs === 'few') return `too few to tell${such}`
  if (differs === 'no') return `can’t be told from others${such}`
  return `${capital(differs)} than chance allows${such}`
}

/** A share in a cell: "12 of 40, 30 %". */
export const formatOwn = ({ count, n, rate }: Measure['own']): string =>
  n === 0 ? 'none' : `${ofAll(count, n)}${rate === null ? '' : `, ${formatShare(rate)}`}`
