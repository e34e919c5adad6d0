import type { StandardBody } from '#contract/standards/standards.ts'
import { named } from '#standards/code-for.ts'

type Gauge = StandardBody['gauges'][number]

/** A gauge more, of which only the title is known. */
export const addGauge = (draft: StandardBody, title: string): StandardBody => {
  const used = draft.gauges.map(({ code }) => code)
  return { ...draft, gauges: [...draft.gauges, { ...named(title, used), unit: 'in', min: null, max: null }] }
}

export const changeGauge = (draft: StandardBody, code: string, change: Partial<Gauge>): StandardBody => ({
  ...draft,
  gauges: draft.gauges.map((gauge) => (gauge.code === code ? { ...gauge, ...change } : gauge)),
})

/** Without a gauge; no measure reads it any more. */
export const removeGauge = (draft: StandardBody, code: string): StandardBody => ({
  ...draft,
  gauges: draft.gauges.filter((gauge) => gauge.code !== code),
  minors: draft.minors.map((minor) =>
    minor.gauges.includes(code) ? { ...minor, gauges: minor.gauges.filter((one) => one !== code) } : minor,
  ),
})

/** The draft with a measure read with a gauge, or not any more. */
export const readWith = (draft: StandardBody, measure: string, gauge: string, isRead: boolean): StandardBody => ({
  ...draft,
  minors: draft.minors.map((minor) => {
    const others = minor.gauges.filter((one) => one !== gauge)
    return minor.code === measure ? { ...minor, gauges: isRead ? [...others, gauge] : others } : minor
  }),
})

/** Faults that a reading may add, once each: those of the measures that read the gauge; of all where none does yet. */
export function faultsForGauge({ minors }: StandardBody, code: string): { code: string; title: string }[] {
  const reading = minors.filter(({ gauges }) => gauges.includes(code))
  const faults = (reading.length > 0 ? reading : minors).flatMap((minor) => minor.faults)
  return [...new Map(faults.map((fault) => [fault.code, fault])).values()]
}
