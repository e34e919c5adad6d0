import { STATES, type State } from '../ui/state-mark.tsx'

/**
 * How to draw a body of people as marks in order of state: one mark each while they are at most `most`, else one mark
 * for every `each` (1, 2, 5, 10, 20, 50 …), rounded to the nearest, and at least one for a state that anybody is in.
 */
export const markPlan = (tally: Record<State, number>, most: number): { each: number; marks: State[] } => {
  const total = STATES.reduce((sum, state) => sum + tally[state], 0)
  const steps = Array.from({ length: 8 }, (_, power) => [1, 2, 5].map((step) => step * 10 ** power)).flat()
  const each = steps.find((step) => total / step <= most) ?? steps.at(-1)!
  const marks = STATES.flatMap((state) => {
    const people = tally[state]
    const drawn = people === 0 ? 0 : Math.max(1, Math.round(people / each))
    return Array<State>(drawn).fill(state)
  })
  return { each, marks }
}
