import type { Passed } from './fit-passes.ts'

type Work<Result> = (before: readonly Passed[], own: readonly Passed[]) => Result

/**
 * Does work once for all candidates who are alike in what came before a sponsor and in the attempts with the sponsor: in a large
 * unit most are. In: work that hangs on nothing else. Out: the same work; what it gives is shared and not to be changed.
 */
export function onceAlike<Result>(work: Work<Result>): Work<Result> {
  const done = new Map<string, Result>()
  return (before, own) => {
    const key = `${before.join(' ')};${own.join(' ')}`
    const known = done.get(key)
    if (known !== undefined) return known
    const result = work(before, own)
    done.set(key, result)
    return result
  }
}
