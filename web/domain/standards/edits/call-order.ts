import type { StandardBody } from '#contract/standards/standards.ts'
import { movedTo } from './list-edits.ts'

type Call = StandardBody['calls'][number]
type Called = Pick<StandardBody, 'minors' | 'rule' | 'calls'>

/** How the trials of measures follow each other. */
export type Pattern = 'running' | 'pairs' | 'unbroken'

/**
 * The calls that fit the measures: those of measures and trials that are there no more are left out. Those that are missing
 * come after the last call of their measure, whose words they have, or of the measure before it.
 */
export function fittingCalls({ minors, rule, calls }: Called): Call[] {
  const fitting = calls.filter(
    ({ measure, trial }) => trial <= rule.trials && minors.some(({ code }) => code === measure),
  )
  minors.forEach((minor, index) => {
    for (let trial = 1; trial <= rule.trials; trial++) {
      if (fitting.some((call) => call.measure === minor.code && call.trial === trial)) continue
      const earlier = [minor, ...minors.slice(0, index).reverse()]
      const before = earlier.find(({ code }) => fitting.some((call) => call.measure === code))
      const place = before ? fitting.findLastIndex((call) => call.measure === before.code) + 1 : 0
      const like = before === minor ? fitting[place - 1] : undefined
      fitting.splice(place, 0, { ...like, measure: minor.code, trial })
    }
  })
  return fitting
}

/** A call at another place. Where it passes another one of its measure, their numbers of trials go up again. */
export function moveCall(calls: readonly Call[], from: number, to: number): Call[] {
  const measure = calls[from]?.measure
  let trial = 0
  return movedTo(calls, from, to).map((call) => (call.measure === measure ? { ...call, trial: ++trial } : call))
}

/**
 * Calls with those of some measures by a pattern, from where the first of them was: each its trials running, one of each in
 * turn, or so without a break, where readings are taken after the last. What is said at each call stays.
 */
export function arranged(calls: readonly Call[], measures: readonly string[], pattern: Pattern): Call[] {
  const isOne = ({ measure }: Call) => measures.includes(measure)
  const first = calls.findIndex(isOne)
  if (first === -1) return [...calls]
  const own = measures.map((measure) =>
    calls.filter((call) => call.measure === measure).sort((a, b) => a.trial - b.trial),
  )
  const most = Math.max(...own.map(({ length }) => length))
  const inTurn = Array.from({ length: most }, (_, at) => own.flatMap((trials) => trials[at] ?? [])).flat()
  const order = pattern === 'running' ? own.flat() : inTurn
  const said = order.map((call, at): Call => {
    const { unbroken: _unbroken, readable: _readable, ...words } = call
    return pattern === 'unbroken' ? { ...words, unbroken: measures[0]!, readable: at === order.length - 1 } : words
  })
  return [...calls.slice(0, first), ...said, ...calls.slice(first).filter((call) => !isOne(call))]
}
