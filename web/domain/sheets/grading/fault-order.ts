import type { Standard } from '#contract/standards/standards.ts'

type Minor = Pick<Standard['minors'][number], 'code' | 'faults' | 'gauges'>

/** How often the unit was marked for each fault, by measure and fault; what is not in it was never noted, or is not known. */
export type NotedFaults = ReadonlyMap<string, ReadonlyMap<string, number>>

/** Nothing is known of what is noted. */
export const NONE_NOTED: NotedFaults = new Map()

/**
 * The faults of a measure in the order in which they are offered: those a grader has to see and tap first, then those that a
 * reading of one of its gauges notes by itself; within each the likeliest first, by what the unit is marked for, and ties in the
 * order of the standard. It is the same at every trial.
 */
export const faultsToOffer = (
  { code: measure, faults, gauges }: Minor,
  all: Standard['gauges'],
  noted: NotedFaults,
): Minor['faults'] => {
  const byReading = new Set(
    all.filter(({ code }) => gauges.includes(code)).flatMap(({ low, high }) => [low ?? '', high ?? '']),
  )
  const isRead = ({ code }: { readonly code: string }) => Number(byReading.has(code))
  const count = ({ code }: { readonly code: string }) => noted.get(measure)?.get(code) ?? 0
  return [...faults].sort((a, b) => isRead(a) - isRead(b) || count(b) - count(a))
}
