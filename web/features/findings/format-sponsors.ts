import type { SponsorFindings } from '#contract/findings/findings.ts'
import type { SponsorFunnelFindings } from '#contract/findings/sponsor-funnel.ts'
import { capital, counted, figure, inWords, listed, plural } from '../../words/format-number.ts'
import { formatShare, formatShares } from '../../words/format-share.ts'
import { ofAll } from '../../words/of-all.ts'

type Sponsor = SponsorFindings['items'][number]
type Verdict = Pick<Sponsor, 'differs' | 'grade' | 'name' | 'attempts'>

/** Whether a sponsor's candidates came out otherwise than chance allows. */
export const differs = (one: Pick<Sponsor, 'differs'>): boolean => one.differs === 'above' || one.differs === 'below'

/** Sponsors as the list has them: those who differ first, then by name; never in an order of merit. */
export const sponsorsInOrder = (sponsors: readonly Sponsor[]): Sponsor[] =>
  [...sponsors].sort((a, b) => Number(differs(b)) - Number(differs(a)) || a.name.localeCompare(b.name, 'en'))

const MOST_NAMED = 3

/** The answer on sponsors: who differs by more than chance would make it, or that nobody does. Nobody is ranked. */
export const formatSponsors = (
  sponsors: readonly Verdict[],
  { asked, sponsors: all }: Pick<SponsorFunnelFindings, 'asked' | 'sponsors'>,
): string => {
  if (sponsors.length === 0) return 'No attempt with a sponsor counts for these filters yet.'
  if (asked === 0) return 'No sponsor has the five attempts it takes to tell anything.'
  if (asked === 1) return 'One sponsor alone has five attempts or more, so there is nobody to compare with.'
  const [own] = sponsors
  // A sponsor is shown nobody else, and told nothing of the others.
  if (own && all > 1 && sponsors.length === 1) return `${own.grade} ${own.name}: ${formatOneSponsor(own)}.`
  const differing = sponsors.filter(differs)
  const called = (side: 'above' | 'below') => {
    const names = differing
      .filter((one) => one.differs === side)
      .map(({ grade, name }) => `${grade} ${name.split(',')[0]}`)
    if (names.length === 0) return ''
    return names.length > MOST_NAMED ? `${inWords(names.length)} ${side}` : `${listed(names)} ${side}`
  }
  if (differing.length === 0)
    return `Nothing differs by more than chance allows: none of ${figure(asked)} sponsors can be told from the others.`
  const who = [called('above'), called('below')].filter(Boolean).join('; ')
  return `${capital(inWords(differing.length))} of ${figure(asked)} sponsors ${plural(differing.length, 'differs', 'differ')} by more than chance allows: ${who}.`
}

/** What they are held against, and that a difference is a question. */
export const formatSponsorsWhy = (sponsors: readonly Verdict[]): string => {
  if (sponsors.length === 0) return 'Choose a longer period or another unit.'
  const few = sponsors.filter(({ differs: verdict }) => verdict === 'few').length
  const left =
    few > 0
      ? ` ${capital(inWords(few))} ${plural(few, 'has', 'have')} fewer than five attempts and ${plural(few, 'is', 'are')} not judged.`
      : ''
  const base =
    'Each is held against how such candidates do with sponsors at large: same tests and kinds of attempt, same graders, same results before.'
  if (!sponsors.some(differs)) return `${base}${left}`
  return `${base} Where nobody differed, anybody would be named here in at most one unit of twenty. A difference is a question to ask, no verdict on anybody’s work.${left}`
}

/** What the funnel shows and what it does not. */
export const formatFunnel = ({ rate, lines }: Pick<SponsorFunnelFindings, 'rate' | 'lines'>): string => {
  if (rate.rate === null) return 'Without attempts there is nothing to hold anybody against.'
  const all = `All together were GO in ${ofAll(rate.count, rate.n)} attempts. A mark stands as far above or below that as the candidates’ GO did above or below what such candidates have at large`
  if (lines.length === 0) return `${all}.`
  return `${all}. The fewer attempts, the farther chance alone moves a mark, so the lines open to the left: between the inner ones lie 19 in 20 sponsors who make no difference; only a mark outside the outer ones is named.`
}

/** One sponsor in words: "with 6 attempts this can’t be told from the others". */
export const formatOneSponsor = ({ differs: verdict, attempts }: Pick<Sponsor, 'differs' | 'attempts'>): string => {
  if (verdict === 'few') return `${counted(attempts, 'attempt')}: too few to tell anything`
  if (verdict === 'no') return `with ${counted(attempts, 'attempt')} this can’t be told from the others`
  return `${verdict === 'above' ? 'more' : 'fewer'} GO than such candidates have, by more than chance allows`
}

/** Passes beside those of such candidates at large: "9 where such candidates have 8.0". */
export const formatExpected = ({ passes, expected }: Pick<Sponsor, 'passes' | 'expected'>): string =>
  `${figure(passes)} where such candidates have ${expected.toFixed(1)}`

/** The estimate with its interval: "59 %, 43 to 74 %". */
export const formatEstimate = ({ estimate }: Pick<Sponsor, 'estimate'>): string =>
  `${formatShare(estimate.rate)}, ${formatShares(estimate)}`
