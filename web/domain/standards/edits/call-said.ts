import type { StandardBody } from '#contract/standards/standards.ts'

type Call = StandardBody['calls'][number]

/** What is said and done at a call, apart from where it stands in the order. */
export type CallSaid = Pick<Call, 'from' | 'preparatory' | 'execution' | 'cadence' | 'finish' | 'steps' | 'readable'>

/** A call that says something otherwise; what is empty is left out. */
export function saying(call: Call, said: CallSaid): Call {
  const next: Record<string, unknown> = { ...call, ...said }
  for (const key of Object.keys(said)) {
    const value = next[key]
    const isEmpty = value === undefined || value === '' || (Array.isArray(value) && value.length === 0)
    if (isEmpty) delete next[key]
  }
  return next as Call
}

/** All calls of a measure say this. */
export const allSaying = (calls: readonly Call[], measure: string, said: CallSaid): Call[] =>
  calls.map((call) => (call.measure === measure ? saying(call, said) : call))

/** What all calls of a measure say alike; undefined: nothing, or not all the same. `differ` names what is not the same. */
export function saidByAll(calls: readonly Call[], measure: string): { said: CallSaid; differ: (keyof CallSaid)[] } {
  const [first, ...rest] = calls.filter((call) => call.measure === measure)
  const said: Record<string, unknown> = {}
  const differ: (keyof CallSaid)[] = []
  for (const key of ['from', 'preparatory', 'execution', 'cadence', 'finish', 'steps'] as const) {
    const isSame = rest.every((call) => JSON.stringify(call[key]) === JSON.stringify(first?.[key]))
    if (isSame) said[key] = first?.[key]
    else differ.push(key)
  }
  return { said, differ }
}

/** A command of execution said by each arm in its own words, or by all in one. */
export const byArm = (execution: Call['execution'], arms: readonly string[]): Record<string, string> =>
  Object.fromEntries(
    arms.map((arm) => [arm, typeof execution === 'object' ? (execution[arm] ?? '') : (execution ?? '')]),
  )

/** One command for all arms again: the first that says something. */
export const forAllArms = (execution: Call['execution']): string =>
  typeof execution === 'object' ? (Object.values(execution).find((word) => word !== '') ?? '') : (execution ?? '')
