import type { JudgedCredit } from '../../contract/findings/credit.ts'
import { judgeFunnelPoint } from '../../domain/statistics/control/judge-funnel-point.ts'
import type { Share } from '../../domain/statistics/proportions/share.ts'
import type { BetaBinomialFit } from '../../domain/statistics/shrinkage/fit-beta-binomial.ts'
import { shrunkRate } from '../../domain/statistics/shrinkage/shrunk-rate.ts'
import { rateOf } from './to-rate.ts'

/** Passes of attempts of one person against those of everybody: `target` is their common rate, `fit` how they spread. */
export function judgeCredit(share: Share, target: Share, fit: BetaBinomialFit): JudgedCredit {
  return { rate: rateOf(share), shrunk: toShrunk(share, fit), funnel: share.n === 0 ? null : toFunnel(share, target) }
}

function toShrunk(share: Share, fit: BetaBinomialFit): JudgedCredit['shrunk'] {
  const none = { rate: null, interval: null, ownWeight: null, reason: null }
  const judged = shrunkRate(fit, share)
  switch (judged.kind) {
    case 'no-data':
      return { ...none, kind: 'not-estimated', reason: 'no-data' }
    case 'not-estimated':
      return { ...none, kind: 'not-estimated', reason: judged.reason }
    case 'pooled':
      return { ...none, kind: 'pooled', rate: judged.rate }
    case 'shrunk': {
      const { rate, low, high, ownWeight } = judged
      return { ...none, kind: 'shrunk', rate, interval: { low, high }, ownWeight }
    }
  }
}

function toFunnel({ count, n }: Share, target: Share): JudgedCredit['funnel'] {
  const point = judgeFunnelPoint(count, n, target.count / target.n)
  if (point.kind !== 'judged') return null
  const { kind: _, rate: _2, ...funnel } = point
  return funnel
}
