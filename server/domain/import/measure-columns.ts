import type { Column, ColumnType } from './column.ts'

interface Measured {
  readonly majors: readonly { readonly code: string; readonly title: string }[]
  readonly minors: readonly { readonly code: string; readonly title: string; readonly gauges: readonly string[] }[]
}

const KINDS = {
  minor: [
    ['', 'trials', '1 correct, 0 incorrect, . blank, as text', '101', ['trials', 'marks']],
    ['faults', 'faults', 'trial:fault, with ; between', '', ['fault']],
    ['readings', 'readings', 'trial:value, with ; between', '', ['reading', 'measured']],
  ],
  major: [
    ['', 'outcome', 'GO or NO-GO', 'GO', ['mark', 'result']],
    ['faults', 'list', 'faults, with ; between', '', ['fault']],
    ['at call', 'whole', 'calls completed when it fell', '', ['call']],
    ['note', 'text', '', '', ['notes']],
  ],
} as const satisfies Record<string, readonly (readonly [string, ColumnType, string, string, readonly string[]])[]>

/**
 * The columns a sheet's measures may have, by code and kind: `draw`, `draw faults`, `draw readings`, and for majors
 * `composure`, `composure at call` and so on; also known by the measure's title. A measure of several standards has one set.
 */
export function measureColumns(standards: readonly Measured[]): Column[] {
  const columns = new Map<string, Column>()
  for (const { majors, minors } of standards) {
    for (const major of majors) add(columns, major, 'major')
    for (const minor of minors) add(columns, minor, 'minor')
  }
  return [...columns.values()]
}

function add(
  columns: Map<string, Column>,
  { code, title }: { code: string; title: string },
  measure: 'major' | 'minor',
) {
  for (const [suffix, type, hint, example, kinds] of KINDS[measure]) {
    const key = measureKey(code, suffix)
    const names = [suffix, ...kinds].map((kind) => [`${code} ${kind}`, `${title} ${kind}`])
    const known = columns.get(key)
    const also = [...new Set([...(known?.also ?? []), ...names.flat().slice(1)])]
    columns.set(key, { key, title: `${code} ${suffix}`.trim(), also, type, needed: false, hint, example })
  }
}

/** The key of a measure's column; kind empty: the marks themselves. */
export const measureKey = (code: string, kind: string): string =>
  kind === '' ? `measure/${code}` : `measure/${code}/${kind}`
