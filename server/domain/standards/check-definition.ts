/** The parts of a standard's definition whose references must agree. */
export interface Definition {
  readonly rule: { readonly trials: number }
  readonly majors: readonly { readonly code: string; readonly faults: readonly { readonly code: string }[] }[]
  readonly minors: readonly {
    readonly code: string
    readonly gauges: readonly string[]
    readonly faults: readonly { readonly code: string }[]
  }[]
  readonly gauges: readonly {
    readonly code: string
    readonly min: string | null
    readonly max: string | null
    readonly low?: string | null | undefined
    readonly high?: string | null | undefined
  }[]
  readonly calls: readonly { readonly measure: string; readonly trial: number }[]
}

/** One place where a definition contradicts itself. */
export interface DefinitionProblem {
  readonly pointer: string
  readonly rule:
    | 'repeated-code'
    | 'unknown-code'
    | 'band-upside-down'
    | 'call-of-no-trial'
    | 'repeated-call'
    | 'call-missing'
  readonly detail: string
}

/**
 * Where a definition of a standard contradicts itself: codes used twice, gauges, faults and measures that are not
 * defined, a band upside down, calls that repeat or leave out a trial. Empty when it is sound.
 */
export function checkDefinition(definition: Definition): DefinitionProblem[] {
  const { majors, minors, gauges } = definition
  const problems: DefinitionProblem[] = [
    ...repeats([...majors, ...minors], (index) =>
      index < majors.length ? `/majors/${index}/code` : `/minors/${index - majors.length}/code`,
    ),
    ...repeats(gauges, (index) => `/gauges/${index}/code`),
    ...majors.flatMap(({ faults }, at) => repeats(faults, (index) => `/majors/${at}/faults/${index}/code`)),
    ...minors.flatMap(({ faults }, at) => repeats(faults, (index) => `/minors/${at}/faults/${index}/code`)),
  ]
  gauges.forEach((gauge, index) => {
    if (gauge.min !== null && gauge.max !== null && Number(gauge.min) > Number(gauge.max)) {
      const detail = `The band of "${gauge.code}" ends below where it begins.`
      problems.push({ pointer: `/gauges/${index}/max`, rule: 'band-upside-down', detail })
    }
  })
  minors.forEach((minor, at) => {
    minor.gauges.forEach((code, index) => {
      problems.push(...gaugeOfMinor(definition, minor, code, `/minors/${at}/gauges/${index}`))
    })
  })
  return [...problems, ...checkCalls(definition)]
}

function repeats(items: readonly { readonly code: string }[], pointer: (index: number) => string): DefinitionProblem[] {
  return items.flatMap(({ code }, index) =>
    items.findIndex((other) => other.code === code) < index
      ? [{ pointer: pointer(index), rule: 'repeated-code' as const, detail: `The code "${code}" is used twice.` }]
      : [],
  )
}

function gaugeOfMinor(
  { gauges }: Definition,
  minor: Definition['minors'][number],
  code: string,
  pointer: string,
): DefinitionProblem[] {
  const gauge = gauges.find((one) => one.code === code)
  if (!gauge) return [{ pointer, rule: 'unknown-code', detail: `There is no gauge "${code}".` }]
  return [gauge.low, gauge.high].flatMap((fault) =>
    fault == null || minor.faults.some((one) => one.code === fault)
      ? []
      : [
          {
            pointer,
            rule: 'unknown-code' as const,
            detail: `A reading of "${code}" out of its band adds the fault "${fault}", which "${minor.code}" lacks.`,
          },
        ],
  )
}

function checkCalls({ rule, minors, calls }: Definition): DefinitionProblem[] {
  const seen = new Set<string>()
  const problems = calls.flatMap((call, index): DefinitionProblem[] => {
    const key = JSON.stringify([call.measure, call.trial])
    const pointer = `/calls/${index}`
    if (!minors.some(({ code }) => code === call.measure) || call.trial > rule.trials) {
      return [{ pointer, rule: 'call-of-no-trial', detail: `"${call.measure}" has no trial ${call.trial}.` }]
    }
    if (seen.has(key)) {
      return [{ pointer, rule: 'repeated-call', detail: `Trial ${call.trial} of "${call.measure}" is called twice.` }]
    }
    seen.add(key)
    return []
  })
  const missing = minors.length * rule.trials - seen.size
  if (problems.length === 0 && missing > 0) {
    problems.push({
      pointer: '/calls',
      rule: 'call-missing',
      detail: `${missing} trials are never called; add their calls.`,
    })
  }
  return problems
}
