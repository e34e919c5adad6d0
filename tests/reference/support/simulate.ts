import { createRandom, type Random } from '../../../seed/generate/random.ts'

/** How often something happened in so many independent repetitions. */
export interface Simulated {
  readonly share: number
  /** Standard error of the share, were the true one `p`. */
  errorAt(p: number): number
}

/** Repeats an experiment with one stream of random numbers and counts how often it comes out true; null is no trial. */
export function simulate(seed: number, times: number, experiment: (random: Random) => boolean | null): Simulated {
  const random = createRandom(seed)
  let [happened, trials] = [0, 0]
  for (let i = 0; i < times; i++) {
    const outcome = experiment(random)
    if (outcome === null) continue
    trials += 1
    if (outcome) happened += 1
  }
  return { share: happened / trials, errorAt: (p) => Math.sqrt((p * (1 - p)) / trials) }
}

/** Successes of so many trials. */
export function binomial(random: Random, n: number, p: number): number {
  let count = 0
  for (let i = 0; i < n; i++) if (random.chance(p)) count += 1
  return count
}

/** A draw from Beta(a, b) for whole a and b: the a-th smallest of a + b − 1 uniform numbers. */
export function beta(random: Random, a: number, b: number): number {
  const uniform = Array.from({ length: a + b - 1 }, () => random.next())
  return uniform.sort((x, y) => x - y)[a - 1]!
}

/** Days to an event that has the same chance every day, from day 1 on. */
export const waitingDays = (random: Random, mean: number): number => Math.ceil(-Math.log(1 - random.next()) * mean)
