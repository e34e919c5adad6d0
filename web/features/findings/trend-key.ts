import type { TrendFindings } from '#contract/findings/trend.ts'

type Series = Pick<TrendFindings['series'][number], 'standard' | 'measure' | 'versions' | 'current' | 'n'>

/** What a chart is called in the address. */
export const trendKey = ({ standard, measure, versions, current }: Series): string =>
  [standard, measure ?? '', current ? '' : versions.join('.')].join('/').replace(/\/+$/, '')

/** The chart asked for by its key; else the test with the most attempts. */
export const chosenTrend = <One extends Series>(series: readonly One[], key: string): One | undefined =>
  series.find((one) => trendKey(one) === key) ??
  series.filter(({ measure }) => measure === null).sort((a, b) => b.n - a.n)[0] ??
  series[0]
