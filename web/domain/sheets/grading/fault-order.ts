import type { Standard } from '#contract/standards/standards.ts'

type Minor = Pick<Standard['minors'][number], 'code' | 'faults' | 'gauges'>

/**
 * The faults of a measure in the order in which they are offered: those a grader has to see and tap first, then those that a
 * reading of one of its gauges notes by itself; within each the order of the standard. It is the same at every trial.
 */
export const faultsToOffer = ({ faults, gauges }: Minor, all: Standard['gauges']): Minor['faults'] => {
  const byReading = new Set(
    all.filter(({ code }) => gauges.includes(code)).flatMap(({ low, high }) => [low ?? '', high ?? '']),
  )
  const isRead = ({ code }: { readonly code: string }) => Number(byReading.has(code))
  return [...faults].sort((a, b) => isRead(a) - isRead(b))
}
