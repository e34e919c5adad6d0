import { toMillionths } from '../scoring/decimal.ts'
import { binWidth } from '../statistics/readings/bin-width.ts'
import { fromMillionths } from '../statistics/readings/from-millionths.ts'

/** Bins for the readings of one gauge, from low to high. */
export interface ReadingGrid {
  readonly size: number
  /** The bin of a reading, from 0. */
  readonly placeOf: (value: string) => number
  /** A value that stands for all readings of a bin: on the same side of the band, and in the same bar of a histogram. */
  readonly valueAt: (place: number) => string
}

interface GaugeBand {
  readonly min: string | null
  readonly max: string | null
  readonly target?: string | null | undefined
}

/** Bins on each side of a band before the open one; the histogram draws no more. */
const BESIDE_BAND = 10
/** Bins on each side of a single limit before the open one. */
const BESIDE_LIMIT = 100

/**
 * The bins in which readings are counted, so that their distribution over years is a handful of numbers.
 *
 * A band with two limits gets the very bars of its histogram (`readingHistogram`), so nothing is lost: the width divides
 * the band, ten bars and an open one lie on each side. With one limit, none, or two equal ones the bins lie on both sides
 * of the limit (else the target, else 0), a hundred and an open one each way, of a tenth of the power of ten at or below
 * its size: 0.1 for a limit of 6, 1 for 45. Readings are rounded to those. A bin never mixes readings inside and outside
 * the band.
 * In: the gauge's limits and target as decimal text; the same gauge gives the same bins for ever, tallies rest on it.
 */
export function readingGrid({ min, max, target }: GaugeBand): ReadingGrid {
  const low = toMillionths(min ?? max ?? target ?? '0')
  const high = toMillionths(max ?? min ?? target ?? '0')
  const isBand = high > low
  const beside = isBand ? BESIDE_BAND : BESIDE_LIMIT
  const width = isBand ? binWidth(high - low, true) : widthAround(low, target)
  const middle = isBand ? (high - low) / width : 1
  const isOpenAbove = max === null
  const below = (value: number) => Math.max(0, beside + 1 - Math.ceil((low - value) / width))
  const within = (value: number) => beside + 1 + Math.min(middle - 1, Math.floor((value - low) / width))
  const stepsAbove = (value: number) => {
    const steps = (value - high) / width
    return isOpenAbove ? Math.floor(steps) + 1 : Math.ceil(steps)
  }
  const above = (value: number) => beside + middle + Math.min(beside + 1, stepsAbove(value))
  return {
    size: 2 * (beside + 1) + middle,
    placeOf(text) {
      const value = toMillionths(text)
      return value < low ? below(value) : value > high ? above(value) : within(value)
    },
    valueAt(place) {
      const fromMiddle = place - beside - 1
      if (place === 0) return fromMillionths(low - beside * width - 1)
      if (fromMiddle < middle) return fromMillionths(low + fromMiddle * width)
      const steps = fromMiddle - middle + 1
      if (isOpenAbove) return fromMillionths(high + (steps - 1) * width + 1)
      return fromMillionths(high + Math.min(beside, steps) * width + (steps > beside ? 1 : 0))
    },
  }
}

/** A tenth of the power of ten at or below the size of a limit; 0.1 around 0. */
function widthAround(limit: number, target: string | null | undefined): number {
  const size = Math.max(Math.abs(limit), target == null ? 0 : Math.abs(toMillionths(target) - limit))
  return size === 0 ? 100_000 : Math.max(1, 10 ** (String(size).length - 2))
}
