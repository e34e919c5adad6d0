import type { ReadingFindings } from '#contract/findings/readings.ts'

type Gauge = ReadingFindings['items'][number]

/** What a gauge is called in the address. */
export const gaugeKey = ({ standard, measure, gauge, versions, current }: Gauge): string =>
  [standard, measure, gauge, ...(current ? [] : [versions.join('.')])].join('/')
