/** The parts of a definition that are compared. */
export interface ComparedDefinition {
  readonly title: string
  readonly task: string
  readonly standard: string
  readonly conditions: readonly string[]
  readonly cautions: readonly string[]
  readonly arms: readonly string[]
  readonly rule: { readonly trials: number; readonly needed: number; readonly percent: string | number }
  readonly majors: readonly (Coded & { readonly criteria: readonly string[]; readonly faults: readonly Coded[] })[]
  readonly minors: readonly (Coded & {
    readonly counts: number | null
    readonly gauges: readonly string[]
    readonly checks: { readonly preparatory: readonly Coded[]; readonly execution: readonly Coded[] }
    readonly faults: readonly Coded[]
  })[]
  readonly gauges: readonly (Coded & {
    readonly unit: string
    readonly min: string | null
    readonly max: string | null
    readonly target?: string | null | undefined
    readonly low?: string | null | undefined
    readonly high?: string | null | undefined
  })[]
  readonly calls: readonly object[]
}

interface Coded {
  readonly code: string
  readonly title: string
}

export const PARTS = ['rule', 'measures', 'faults', 'gauges', 'calls', 'text'] as const

/** One thing that is otherwise in a later version. Before null: new; after null: no longer there. */
export interface DefinitionChange {
  readonly part: (typeof PARTS)[number]
  readonly what: string
  readonly before: string | null
  readonly after: string | null
}

/** What is otherwise in a later version of a standard, in words, by part. Empty where both test the same in the same way. */
export function compareDefinitions(before: ComparedDefinition, after: ComparedDefinition): DefinitionChange[] {
  return [
    ...changed('rule', 'Trials of a measure', String(before.rule.trials), String(after.rule.trials)),
    ...changed('rule', 'Correct trials needed', String(before.rule.needed), String(after.rule.needed)),
    ...changed('rule', 'Minors that must be GO', `${before.rule.percent} %`, `${after.rule.percent} %`),
    ...changed('rule', 'Arms', listed(before.arms), listed(after.arms)),
    ...measures('Major', before.majors, after.majors, ({ criteria }) => [['Looked at', criteria.join('; ')]]),
    ...measures('Minor', before.minors, after.minors, ({ counts, gauges, checks }) => [
      ['Counts', counts === null ? 'none' : String(counts)],
      ['Gauges', listed(gauges)],
      ['Checked at the preparatory command', checks.preparatory.map(({ title }) => title).join('; ')],
      ['Checked at the command of execution', checks.execution.map(({ title }) => title).join('; ')],
    ]),
    ...gauges(before.gauges, after.gauges),
    ...calls(before, after),
    ...(['title', 'task', 'standard'] as const).flatMap((field) =>
      changed('text', `The ${field}`, before[field], after[field]),
    ),
    ...changed('text', 'Conditions', before.conditions.join('; '), after.conditions.join('; ')),
    ...changed('text', 'Cautions', before.cautions.join('; '), after.cautions.join('; ')),
  ]
}

const listed = (words: readonly string[]): string => (words.length === 0 ? 'any' : words.join(', '))

function changed(part: DefinitionChange['part'], what: string, before: string, after: string): DefinitionChange[] {
  return before === after ? [] : [{ part, what, before, after }]
}

type Measure = Coded & { readonly faults: readonly Coded[] }

function measures<One extends Measure>(
  kind: string,
  before: readonly One[],
  after: readonly One[],
  details: (measure: One) => [string, string][],
): DefinitionChange[] {
  return [
    ...paired('measures', `${kind} measure`, before, after, (one, other) => [
      ...changed('measures', `${kind} measure ${other.code}`, one.title, other.title),
      ...details(one).flatMap(([what, was], at) =>
        changed('measures', `${what}, ${other.title}`, was, details(other)[at]![1]),
      ),
      ...paired('faults', `Fault of ${other.title}`, one.faults, other.faults, (fault, same) =>
        changed('faults', `Fault ${fault.code} of ${other.title}`, fault.title, same.title),
      ),
    ]),
    ...order(kind, before, after),
  ]
}

/** What came, what went, and what is said of the ones that are in both. */
function paired<One extends Coded>(
  part: DefinitionChange['part'],
  what: string,
  before: readonly One[],
  after: readonly One[],
  compare: (before: One, after: One) => DefinitionChange[],
): DefinitionChange[] {
  const gone = before.filter(({ code }) => !after.some((other) => other.code === code))
  return [
    ...gone.map(({ title }): DefinitionChange => ({ part, what, before: title, after: null })),
    ...after.flatMap((other): DefinitionChange[] => {
      const one = before.find(({ code }) => code === other.code)
      return one ? compare(one, other) : [{ part, what, before: null, after: other.title }]
    }),
  ]
}

/** The order of the measures that are in both. */
function order(kind: string, before: readonly Coded[], after: readonly Coded[]): DefinitionChange[] {
  const inBoth = (some: readonly Coded[], others: readonly Coded[]) =>
    some.filter(({ code }) => others.some((other) => other.code === code)).map(({ code }) => code)
  return changed(
    'measures',
    `Order of the ${kind.toLowerCase()} measures`,
    inBoth(before, after).join(', '),
    inBoth(after, before).join(', '),
  )
}

function gauges(before: ComparedDefinition['gauges'], after: ComparedDefinition['gauges']): DefinitionChange[] {
  const band = ({ min, max, unit }: ComparedDefinition['gauges'][number]) =>
    `${min ?? 'no lower limit'} to ${max ?? 'no upper limit'} ${unit}`
  return paired('gauges', 'Gauge', before, after, (one, other) => [
    ...changed('gauges', `Gauge ${other.code}`, one.title, other.title),
    ...changed('gauges', `Band of ${other.title}`, band(one), band(other)),
    ...changed('gauges', `Target of ${other.title}`, one.target ?? 'none', other.target ?? 'none'),
    ...changed('gauges', `Fault below the band of ${other.title}`, one.low ?? 'none', other.low ?? 'none'),
    ...changed('gauges', `Fault above the band of ${other.title}`, one.high ?? 'none', other.high ?? 'none'),
  ])
}

/** Calls are compared as a whole: a new measure moves all that come after it. */
function calls(before: ComparedDefinition, after: ComparedDefinition): DefinitionChange[] {
  const text = (list: readonly object[]) => JSON.stringify(list, (_key, value) => sorted(value))
  if (text(before.calls) === text(after.calls)) return []
  const say = (list: readonly object[]) => `${list.length} calls`
  const what = before.calls.length === after.calls.length ? 'What is called, or in which order' : 'Calls'
  return [{ part: 'calls', what, before: say(before.calls), after: say(after.calls) }]
}

/** Fields in one order: what comes from the database has its own. */
const sorted = (value: unknown): unknown =>
  value !== null && typeof value === 'object' && !Array.isArray(value)
    ? Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)))
    : value
