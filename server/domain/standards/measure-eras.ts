interface Named {
  readonly code: string
  readonly title?: string
}

/** What of a version's definition says how its measures are done and judged. */
export interface JudgedDefinition {
  readonly rule: { readonly trials: number; readonly needed: number }
  readonly majors: readonly Named[]
  readonly minors: readonly (Named & { readonly gauges: readonly string[] })[]
  readonly gauges: readonly (Named & { readonly origin?: string | undefined })[]
}

/** The versions of a standard in which one measure is defined alike. */
export interface MeasureEra {
  readonly measure: string
  readonly major: boolean
  /** Version numbers in order; they need not be neighbours. */
  readonly versions: readonly number[]
  /** No later of the given versions defines the measure otherwise. */
  readonly isCurrent: boolean
}

/**
 * Which versions of a standard may be pooled, measure by measure: those in which nothing differs but the titles of the
 * measure and of its gauges, and where a gauge comes from. What is checked, faults, counts, gauges with their bands, and
 * for a minor the number of trials and of those needed must be the same. How and in which order it is called, and the
 * percentage of the whole test, are not the measure's.
 * In: versions of one standard. Out: by version number, by code of the measure, its era. A definition that comes back after
 * another joins its former era.
 */
export function measureEras(
  versions: readonly { readonly version: number; readonly definition: JudgedDefinition }[],
): Map<number, Map<string, MeasureEra>> {
  const inOrder = [...versions].sort((a, b) => a.version - b.version)
  const members = inOrder.flatMap(({ version, definition }) =>
    measuresOf(definition).map((one) => ({ ...one, version })),
  )
  const newest = new Map(members.map(({ measure, text }) => [measure, text]))
  const eras = new Map<string, MeasureEra>()
  for (const { measure, major, text, version } of members) {
    const before = eras.get(text)?.versions ?? []
    eras.set(text, { measure, major, versions: [...before, version], isCurrent: newest.get(measure) === text })
  }
  const byVersion = new Map(inOrder.map(({ version }) => [version, new Map<string, MeasureEra>()]))
  for (const { measure, text, version } of members) byVersion.get(version)!.set(measure, eras.get(text)!)
  return byVersion
}

function measuresOf({ rule, majors, minors, gauges }: JudgedDefinition) {
  const ofMajor = majors.map((major) => ({
    measure: major.code,
    major: true,
    text: inWords({ ...major, title: '', kind: 'major' }),
  }))
  const ofMinor = minors.map((minor) => {
    const own = minor.gauges.map((code) => ({ ...gauges.find((one) => one.code === code)!, title: '', origin: '' }))
    const { trials, needed } = rule
    return { measure: minor.code, major: false, text: inWords({ ...minor, title: '', gauges: own, trials, needed }) }
  })
  return [...ofMajor, ...ofMinor]
}

/** The same text for the same data, whatever the order of its keys. */
const inWords = (data: unknown): string =>
  JSON.stringify(data, (_, value) =>
    value !== null && typeof value === 'object' && !Array.isArray(value)
      ? Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)))
      : value,
  )
