import { toMillionths } from '../../scoring/decimal.ts'
import { requireCount } from '../numeric/require-count.ts'
import { type Band, bandInMillionths, type ReadingCount, type Side, sideOf } from './band.ts'
import { binWidth } from './bin-width.ts'
import { fromMillionths } from './from-millionths.ts'

/** A bar: the values from `from` to `to` (null: open end) on one side of the band, and how many readings fell there. */
export type ReadingBin = { side: Side; from: string | null; to: string | null; count: number }

type Limits = ReturnType<typeof bandInMillionths>

const OUTSIDE = 10

/**
 * The distribution of readings in bars that never mix readings inside and outside the band.
 *
 * The band's limits are edges, the width divides the band, and all arithmetic is in whole millionths, so that a
 * reading on an edge falls the same way every time: inside the band a bar holds from ≤ value < to, the last one also
 * its end (the band is closed); below it from ≤ value < to; above it from < value ≤ to. Beyond ten bars outside, one
 * open bar takes the rest. Where the band has one limit or none, or is a single value, the width follows from the
 * range of the readings.
 * In: counts by value as decimal text, the band. Out: the bars from low to high without gaps, [] without readings;
 * the counts add up to the number of readings.
 */
export function readingHistogram(readings: readonly ReadingCount[], band: Band): ReadingBin[] {
  const limits = bandInMillionths(band)
  const values = readings.flatMap(({ value, count }) => {
    requireCount(count, `readingHistogram: count of ${value}`)
    return count === 0 ? [] : [{ at: toMillionths(value), count }]
  })
  if (values.length === 0) return []
  const least = values.reduce((least, { at }) => Math.min(least, at), Infinity)
  const most = values.reduce((most, { at }) => Math.max(most, at), -Infinity)
  const width = chooseWidth(least, most, limits)
  const inner = innerRange(least, most, limits, width)
  const last = Math.max(0, Math.ceil((inner.to - inner.from) / width) - 1)

  const outward = (distance: number) => Math.min(OUTSIDE + 1, Math.ceil(distance / width))
  const place = (at: number) => {
    const side = sideOf(at, limits)
    if (side === 'low') return -outward(inner.from - at)
    if (side === 'high') return last + outward(at - inner.to)
    return Math.min(last, Math.floor((at - inner.from) / width))
  }
  const first = Math.min(0, place(least))
  const final = Math.max(last, place(most))
  const counts = new Array<number>(final - first + 1).fill(0)
  for (const { at, count } of values) counts[place(at) - first]! += count
  return counts.map((count, i) => ({ ...edgesOf(first + i, last, inner, width), count }))
}

function chooseWidth(least: number, most: number, { min, max }: Limits): number {
  if (Number.isFinite(max - min) && max > min) return binWidth(max - min, true)
  const finite = [min, max].filter(Number.isFinite)
  return binWidth(Math.max(1, Math.max(most, ...finite) - Math.min(least, ...finite)), false)
}

/** The range inside the band; on a side without a limit it reaches just past the last reading. */
function innerRange(least: number, most: number, { min, max }: Limits, width: number): { from: number; to: number } {
  const wholeBins = (distance: number) => Math.max(1, Math.ceil(distance / width)) * width
  const open = Number.isFinite(max) ? max - wholeBins(max - least) : Math.floor(least / width) * width
  const from = Number.isFinite(min) ? min : open
  return { from, to: Number.isFinite(max) ? max : from + wholeBins(most - from) }
}

/** The bar at a place: negative ones below the band, 0 to `last` inside, the others above. */
function edgesOf(
  place: number,
  last: number,
  inner: { from: number; to: number },
  width: number,
): Omit<ReadingBin, 'count'> {
  const above = place - last
  if (place < 0) {
    const to = inner.from + (place + 1) * width
    return { side: 'low', from: -place > OUTSIDE ? null : fromMillionths(to - width), to: fromMillionths(to) }
  }
  if (above > 0) {
    const from = inner.to + (above - 1) * width
    return { side: 'high', from: fromMillionths(from), to: above > OUTSIDE ? null : fromMillionths(from + width) }
  }
  const from = inner.from + place * width
  return { side: 'within', from: fromMillionths(from), to: fromMillionths(place === last ? inner.to : from + width) }
}
