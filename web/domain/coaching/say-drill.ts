import type { Drill } from '#contract/coaching/coaching.ts'
import { ofAll } from '../../words/of-all.ts'
import { sayDay } from '../../words/say-day.ts'
import { inWords } from '../../words/say-number.ts'
import { sayShare, sayShares } from '../../words/say-share.ts'

/** Worth drilling before the next test: NO-GO when last tested, or never tested. */
export const isToDrill = ({ reason }: Pick<Drill, 'reason'>): boolean =>
  reason === 'never-go' || reason === 'no-go-last' || reason === 'not-tested'

/** Why a measure is where it is in the order of drilling: "NO-GO in the last two tests, GO before". */
export const sayDrillReason = (drill: Drill, tests: number, today: string): string => {
  const { reason, tested, lastNoGo, inARow, improved } = drill
  const last = lastNoGo === null ? '' : sayDay(lastNoGo, today)
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
        ? `GO since ${sayDay(improved.goOn, today)}; NO-GO last on ${sayDay(improved.noGoOn, today)}`
        : 'GO when last tested'
    case 'always-go':
      return tested === 1 ? 'GO when tested' : `GO in all ${inWords(tested)} tests`
  }
}

/** How often first-timers of the unit are NO-GO: "12 of 40, 30 % (18 to 45 %)"; few are said to be few. */
export const sayUnitRate = ({ count, n, rate, interval, few }: Drill['unit']): string => {
  if (rate === null || interval === null) return 'none tested'
  return `${ofAll(count, n)}, ${sayShare(rate)} (${sayShares(interval)})${few ? ', few tests' : ''}`
}
