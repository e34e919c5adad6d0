/** A token of `ui/tokens.css` that things are drawn in. */
export const INKS = ['paper', 'ink', 'ink-2', 'ink-3', 'rule', 'hair', 'accent', 'open', 'retest-due'] as const

export type Ink = (typeof INKS)[number]

/** Told apart in black and white. */
export type Shape = 'disc' | 'ring' | 'diamond' | 'hollow diamond' | 'square' | 'up' | 'down' | 'cross' | 'bar'

export interface PlotPoint {
  x: number
  y: number
  /** What the point is, on hover; a line each. */
  says?: readonly string[]
  /** Written beside the point. */
  name?: string
}

interface SeriesBase {
  /** What it is called in the key below the drawing; without it the key has no such entry. */
  key?: string
  ink: Ink
}

/**
 * What is drawn. `marks` are single points; a `line` joins its points, straight or in `steps` (held until the next point,
 * or changing half way between two); `spans` go from `low` to `high` along the bottom axis at a height; `bars` stand on
 * the bottom axis, `solid` or hollow.
 */
export type Series =
  | (SeriesBase & { kind: 'marks'; shape: Shape; points: readonly PlotPoint[] })
  | (SeriesBase & {
      kind: 'line'
      dash?: readonly number[]
      width?: number
      steps?: 'held' | 'half way'
      /** A mark at its end, so that lines are told apart without colour. */
      end?: Shape
      /** A point without `y` leaves a gap. */
      points: readonly { x: number; y: number | null; says?: readonly string[] }[]
    })
  | (SeriesBase & { kind: 'spans'; spans: readonly { low: number; high: number; y: number }[] })
  | (SeriesBase & { kind: 'bars'; solid: boolean; points: readonly PlotPoint[] })

export interface Axis {
  title: string
  from: number
  to: number
  ticks: readonly number[]
  say: (value: number) => string
  /** A name a row, from the top down. */
  rows?: boolean
}

/** A drawing on two axes, in our terms: what is drawn and with which shapes, nothing of how. */
export interface Plot {
  across: Axis
  up: Axis
  series: readonly Series[]
}
