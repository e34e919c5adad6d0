/** A tolerance to be drawn: null where there is no limit. */
export interface Tolerance {
  readonly min: number | null
  readonly max: number | null
  readonly target: number | null
}

/** Size of every picture, in CSS pixels. */
export const PICTURE = { width: 150, height: 84 }

interface Point {
  readonly x: number
  readonly y: number
}

/** An angle drawn as it is: from the line of reference, counter-clockwise. */
export interface AngleDrawing {
  readonly origin: Point
  readonly radius: number
  /** Where the line of reference ends. */
  readonly base: Point
  /** The sector that is right, as an SVG path. */
  readonly sector: string
  /** Ends of the limits' rays, and of the target's. */
  readonly rays: readonly (Point & { readonly value: number })[]
  readonly target: Point | null
}

const FULL = 360
const MARGIN = 16

/** Draws a band of angles true to measure; the frame is a quarter, a half or the whole turn, whichever holds it. */
export function drawAngle({ min, max, target }: Tolerance): AngleDrawing {
  const limits = [min, max, target].filter((each) => each !== null)
  const isQuarter = limits.every((each) => each >= 0 && each <= 90)
  const isHalf = limits.every((each) => each >= 0 && each <= 180)
  const { width, height } = PICTURE
  const radius = isHalf ? height - 2 * MARGIN + 4 : height / 2 - MARGIN
  const origin = {
    x: isQuarter ? MARGIN : width / 2,
    y: isHalf ? height - MARGIN : height / 2,
  }
  const at = (degrees: number, length = radius): Point => ({
    x: round(origin.x + length * Math.cos((degrees * Math.PI) / 180)),
    y: round(origin.y - length * Math.sin((degrees * Math.PI) / 180)),
  })
  const whole = isQuarter ? 90 : isHalf ? 180 : FULL
  const from = min ?? Math.min(0, max ?? 0)
  const to = Math.max(from, Math.min(max ?? Math.max(from, whole), from + FULL - 0.01))
  const [start, end] = [at(from), at(to)]
  return {
    origin,
    radius,
    base: at(0, radius + 8),
    sector: `M${origin.x} ${origin.y}L${start.x} ${start.y}A${radius} ${radius} 0 ${to - from > 180 ? 1 : 0} 0 ${end.x} ${end.y}Z`,
    rays: [min, max].filter((each) => each !== null).map((value) => ({ value, ...at(value) })),
    target: target === null ? null : at(target, radius + 4),
  }
}

/** A stretch on a straight scale: where it begins and ends along it, in pixels from its start. */
export interface StretchDrawing {
  readonly length: number
  readonly band: { readonly from: number; readonly to: number }
  readonly target: number | null
  readonly marks: readonly { readonly at: number; readonly value: number }[]
}

/**
 * Draws a band on a straight scale of so many pixels, true to scale: what is twice as far is drawn twice as far.
 * @param fromZero heights and distances begin at nothing; other scales a little below what is right
 */
export function drawStretch({ min, max, target }: Tolerance, length: number, fromZero: boolean): StretchDrawing {
  const values = [min, max, target].filter((each) => each !== null)
  const [low, high] = [Math.min(...(fromZero ? [0] : []), ...values), Math.max(...(fromZero ? [0] : []), ...values)]
  const known = Number.isFinite(low) ? { low, high } : { low: 0, high: 1 }
  const air = Math.max((known.high - known.low) / 4, Math.abs(known.high) / 20, 1e-4)
  const start = fromZero && known.low === 0 ? 0 : known.low - air
  const end = known.high + air
  const place = (value: number) => round(((value - start) / (end - start)) * length)
  const limits = [min, max].filter((each) => each !== null)
  return {
    length,
    band: { from: place(Math.min(min ?? start, max ?? end)), to: place(Math.max(min ?? start, max ?? end)) },
    target: target === null ? null : place(target),
    marks: [...new Set([...(fromZero ? [0] : []), ...limits])].map((value) => ({ at: place(value), value })),
  }
}

const round = (value: number): number => Math.round(value * 100) / 100
