/** Measures called one after the other, so many times. */
export interface Stretch {
  readonly measures: readonly string[]
  readonly times: number
}

/** No longer pattern is looked for. */
const LONGEST = 6

/**
 * The order of calls in short: which measures come one after the other and how often that is repeated. From the front, the
 * pattern that covers most calls is taken, the shortest of those. In: the measure of each call. Out: stretches that, written
 * out, give the same order again.
 */
export function runOfTest(calls: readonly string[]): Stretch[] {
  const stretches: Stretch[] = []
  for (let at = 0; at < calls.length; ) {
    let best = { size: 1, times: 1 }
    for (let size = 1; size <= LONGEST && at + size <= calls.length; size++) {
      let times = 1
      while (isAgain(calls, at, size, times)) times += 1
      if (times > 1 && size * times > best.size * best.times) best = { size, times }
    }
    stretches.push({ measures: calls.slice(at, at + best.size), times: best.times })
    at += best.size * best.times
  }
  return stretches
}

const isAgain = (calls: readonly string[], at: number, size: number, times: number): boolean =>
  at + (times + 1) * size <= calls.length &&
  Array.from({ length: size }, (_, i) => calls[at + i] === calls[at + times * size + i]).every(Boolean)
