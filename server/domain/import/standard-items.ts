import { gatherRows, requireAgreement } from './gather-rows.ts'
import type { Item, ReadRow } from './item.ts'
import { splitAtMost } from './split-at-most.ts'

/** Standards from a row for each measure; those of one code and version belong together, in the order of the rows. */
export function standardItems(rows: readonly ReadRow[]): Item[] {
  return gatherRows(
    rows,
    ({ code, version = 1 }) => JSON.stringify([code, version]),
    (group) => {
      const {
        code,
        version = 1,
        title,
        effectiveFrom,
        arms = [],
        trials = 3,
        needed = 2,
        percent = '80',
      } = group[0]!.values
      const isMajor = ({ values }: ReadRow) =>
        String(values.class ?? '')
          .toLowerCase()
          .startsWith('maj')
      const measures = (chosen: readonly ReadRow[]) =>
        chosen.map(({ values }) => ({
          code: values.measure,
          title: values.measureTitle,
          faults: faultsOf(values.faults),
        }))
      const minors = group.filter((row) => !isMajor(row))
      const gauges = new Map(
        minors.flatMap(({ values }) => gaugesOf(values.gauges)).map((gauge) => [gauge.code, gauge]),
      )
      const value = {
        code,
        version,
        title,
        effectiveFrom,
        arms,
        rule: { trials, needed, percent },
        majors: measures(group.filter(isMajor)),
        minors: measures(minors).map((minor, index) => ({
          ...minor,
          gauges: gaugesOf(minors[index]!.values.gauges).map((gauge) => gauge.code),
        })),
        gauges: [...gauges.values()],
      }
      const head = ['title', 'effectiveFrom', 'arms', 'trials', 'needed', 'percent']
      return { value, problems: requireAgreement(group, head) }
    },
  )
}

const faultsOf = (list: unknown) =>
  ((list ?? []) as string[]).map((text) => {
    const [code, title] = splitAtMost(text, '=', 2)
    return { code: code!.trim(), title: (title ?? code)!.trim() }
  })

const gaugesOf = (list: unknown) =>
  ((list ?? []) as string[]).map((text) => {
    const [code = '', rest = ''] = splitAtMost(text, '=', 2)
    const [title = '', unit = '', min = '', max = '', low = '', high = ''] = rest.split('|').map((part) => part.trim())
    const given = (part: string) => (part === '' ? null : part)
    return {
      code: code.trim(),
      title: title || code.trim(),
      unit,
      min: given(min),
      max: given(max),
      low: given(low),
      high: given(high),
    }
  })
