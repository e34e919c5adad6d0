const LISTS: Readonly<Record<string, string>> = {
  minors: 'Minor measure',
  majors: 'Major measure',
  gauges: 'Gauge',
  calls: 'Call',
  faults: 'fault',
  criteria: 'criterion',
  arms: 'Arm',
  conditions: 'Condition',
  references: 'Reference',
  cautions: 'Caution',
  steps: 'step',
  finish: 'finishing command',
  preparatory: 'check at the preparatory command',
  execution: 'check at the command of execution',
}

const FIELDS: Readonly<Record<string, string>> = {
  rule: 'Rule',
  trials: 'trials of a measure',
  needed: 'correct trials needed',
  percent: 'percentage needed',
  min: 'lowest',
  max: 'highest',
  low: 'fault below the lowest',
  high: 'fault above the highest',
  counts: 'number of counts',
  checks: '',
  from: 'where it starts',
  preparatory: 'preparatory command',
  execution: 'command of execution',
  finish: 'finishing commands',
  effectiveFrom: 'In force from',
  equivalentToPrevious: 'Equivalent to the version before',
}

/**
 * Where in a standard something is, in words: "Minor measure 1, Draw, fault 2". In: the standard as it was sent, which may be
 * malformed, and a JSON pointer into it. Out: '' for the standard as a whole.
 */
export function formatPlace(standard: unknown, pointer: string): string {
  const words: string[] = []
  let here: unknown = standard
  for (const [at, step] of pointer.split('/').slice(1).entries()) {
    const list = here
    here = (here as Record<string, unknown> | undefined)?.[step]
    if (Array.isArray(list)) {
      words.push(`${words.pop()} ${Number(step) + 1}`, titleOf(here))
      continue
    }
    const word = Array.isArray(here) && !isLast(pointer, at) ? LISTS[step] : FIELDS[step]
    words.push(word ?? LISTS[step] ?? step)
  }
  const said = words.filter(Boolean).join(', ')
  return said.charAt(0).toUpperCase() + said.slice(1)
}

const isLast = (pointer: string, at: number): boolean => pointer.split('/').length - 2 === at

const titleOf = (thing: unknown): string => {
  const title = (thing as { title?: unknown } | null | undefined)?.title
  return typeof title === 'string' ? title.trim() : ''
}
