/** How forecasts of past tests of a kind came out: mean squared errors of the model and of the unit's pass rate. */
export interface KindRecord {
  readonly n: number
  readonly brier: number
  readonly byKind: number
}

/** With fewer past tests it is not known which is better; then the model speaks, which knows the candidate. */
const FEWEST_TESTS = 20

/** Whether to show the model's forecast, or the unit's pass rate where the model was no better. */
export function modelOrBaseline(record: KindRecord | undefined): 'model' | 'baseline' {
  return record !== undefined && record.n >= FEWEST_TESTS && record.brier >= record.byKind ? 'baseline' : 'model'
}

/**
 * Limits of a candidate's chance around another centre: moved by as much in logits as the centre. So they say the same thing
 * whichever is shown, how far such candidates differ.
 */
export function movedLimits(
  { pass, low, high }: { readonly pass: number; readonly low: number; readonly high: number },
  to: number,
): { low: number; high: number } {
  const shift = logit(to) - logit(pass)
  const moved = (p: number) => 1 / (1 + Math.exp(-logit(p) - shift))
  return { low: moved(low), high: moved(high) }
}

const logit = (p: number): number => {
  const held = Math.min(1 - 1e-9, Math.max(1e-9, p))
  return Math.log(held / (1 - held))
}
