import { formatCoefficient } from '../../words/format-share.ts'
import type { Axis } from './plot.ts'

const STEP = 0.2

/** An axis of coefficients from −1 to 1 that holds nought and the values, with a tick every fifth. */
export const coefficientAxis = (title: string, values: readonly number[]): Axis => {
  const from = Math.max(-5, Math.floor(Math.min(0, ...values) / STEP + 1e-9))
  const to = Math.min(5, Math.max(from + 1, Math.ceil(Math.max(0, ...values) / STEP - 1e-9)))
  const ticks = Array.from({ length: to - from + 1 }, (_, index) => ((from + index) * STEP * 10) / 10)
  return { title, from: from * STEP, to: to * STEP, ticks, say: (value) => formatCoefficient(value).replace(/0$/, '') }
}
