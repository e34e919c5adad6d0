import type { Standard } from '#contract/standards/standards.ts'

/** A sentence of the rules with the titles of measures, faults and gauges in place of their codes in quotes. */
export const inTitles = (
  sentence: string,
  { majors, minors, gauges }: Pick<Standard, 'majors' | 'minors' | 'gauges'>,
): string => {
  const faults = [...majors, ...minors].flatMap((measure) => measure.faults)
  const titles = new Map([...faults, ...gauges, ...majors, ...minors].map(({ code, title }) => [code, title]))
  return sentence.replace(/"([\w.-]+)"/g, (quoted, code: string) => titles.get(code) ?? quoted)
}
