import type { Random } from '../random.ts'

/** A gauge with both limits, as all of the demo unit's have. */
export interface BandedGauge {
  readonly code: string
  readonly unit: string
  readonly min: string
  readonly max: string
}

/** Which side people err to, as the share of readings outside that are low. The others have a half. */
const ERRS_LOW: Readonly<Record<string, number>> = {
  'tip-height': 0.7,
  'step-length': 0.75,
  'foot-lift': 0.7,
  slope: 0.65,
  'head-turn': 0.6,
  'quick-cadence': 0.3,
  'double-cadence': 0.55,
}

/** Readings spread by this share of half the band around an aim that leans to the side people err to. */
const SPREAD = 0.5
const LEAN = 0.5

/** What can be read off: quarters of an inch on short scales, halves on long ones, whole degrees and steps. */
function gradation({ unit, min, max }: BandedGauge): number {
  if (unit !== 'in') return 1
  return Number(max) - Number(min) <= 2 ? 0.25 : 0.5
}

/** A reading inside the band: normal around the aim, drawn again where it falls outside. */
export function readingInside(random: Random, gauge: BandedGauge): string {
  const [min, max, step] = [Number(gauge.min), Number(gauge.max), gradation(gauge)]
  const half = (max - min) / 2
  const aim = (min + max) / 2 + LEAN * half * (0.5 - (ERRS_LOW[gauge.code] ?? 0.5))
  for (;;) {
    const value = Math.round(random.normal(aim, SPREAD * half) / step) * step
    if (value >= min && value <= max) return String(value)
  }
}

/** A reading outside the band, most often just outside. */
export function readingOutside(random: Random, gauge: BandedGauge): string {
  const [min, max, step] = [Number(gauge.min), Number(gauge.max), gradation(gauge)]
  const beyond = step * (1 + Math.floor(Math.abs(random.normal(0, (SPREAD * (max - min)) / 2 / step))))
  return String(random.chance(ERRS_LOW[gauge.code] ?? 0.5) ? Math.max(0, min - beyond) : max + beyond)
}
