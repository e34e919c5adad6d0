import type { Drill } from '#contract/coaching/coaching.ts'
import { formatDay } from '../../words/format-day.ts'
import { inWords } from '../../words/format-number.ts'
import { formatShare, formatShares } from '../../words/format-share.ts'
import { ofAll } from '../../words/of-all.ts'

/** Worth drilling before the next test: NO-GO when last tested, or never tested. */
export const isToDrill = ({ reason }: Pick<Drill, 'reason'>): boolean =>
  reason === 'never-go' || reason === 'no-go-last' || reason === 'not-tested'

/** So many measures are proposed for one practice. */
const MOST_AT_ONCE = 3

/** The minor measures to practise first, as an address takes them: codes with blanks between. */
export const measuresToDrill = (items: readonly Pick<Drill, 'measure' | 'major' | 'reason'>[]): string =>
  items
    .filter((item) => isToDrill(item) && !item.major)
    .slice(0, MOST_AT_ONCE)
    .map(({ measure }) => measure)
    .join(' ')

/** Why a measure is where it is in the order of drilling: "NO-GO in the last two tests, GO before". */
export const formatDrillReason = (drill: Drill, tests: number, today: string): string => {
  const { reason, tested, lastNoGo, inARow, improved } = drill
  const last = lastNoGo === null ? '' : formatDay(lastNoGo, today)
  switch (reason) {
    case 'never-go':
      return tested === 1 ? `NO-GO when tested, ${last}` : `never GO in ${inWords(tested)} tests, last ${last}`
    case 'no-go-last':
      return inARow === 1
        ? `NO-GO when last tested, ${last}; GO before`
        : `NO-GO ${inWords(inARow)} times in a row, last ${last}; GO before`
    case 'not-tested':
      return tests === 0 ? 'no test yet' : 'no test has reached it'
    case 'go-since':
      return improved
        ? `GO since ${formatDay(improved.goOn, today)}; NO-GO last on ${formatDay(improved.noGoOn, today)}`
        : 'GO when last tested'
    case 'always-go':
      return tested === 1 ? 'GO when tested' : `GO in all ${inWords(tested)} tests`
  }
}

/** How often first-timers of the unit are NO-GO: "12 of 40, 30 % (18 to 45 %)"; few are said to be few. */
export const formatUnitRate = ({ count, n, rate, interval, few }: Drill['unit']): string => {
  if (rate === null || interval === null) return 'none tested'
  return `${ofAll(count, n)}, ${formatShare(rate)} (${formatShares(interval)})${few ? ', few tests' : ''}`
}
