import { placeInBand } from './band.ts'
import type { Malformed, MarkedMinor, Reading, ScoredStandard } from './types.ts'

type Definition = ScoredStandard['minors'][number]

const READING_VALUE = /^-?\d{1,4}(\.\d{1,4})?$/

/** Malformed places of one minor measure that the standard knows; `pointer` is where the measure stands on the sheet. */
export function findMalformedMinor(
  standard: ScoredStandard,
  definition: Definition,
  minor: MarkedMinor,
  pointer: string,
): Malformed[] {
  return [
    ...trialsOf(standard.rule.trials, minor, pointer),
    ...faultsOf(definition, minor, pointer),
    ...(minor.readings ?? []).flatMap((reading, index) =>
      readingOf(standard, definition, minor, reading, index, `${pointer}/readings/${index}`),
    ),
  ]
}

function trialsOf(allowed: number, minor: MarkedMinor, pointer: string): Malformed[] {
  const found: Malformed[] = []
  if (minor.trials.length > allowed) {
    const detail = `"${minor.code}" has ${minor.trials.length} trials; the standard has ${allowed}.`
    found.push({ pointer: `${pointer}/trials`, rule: 'too-many-trials', detail })
  }
  minor.trials.forEach((mark, index) => {
    const at = `${pointer}/trials/${index}`
    if (mark !== null && mark !== 'correct' && mark !== 'incorrect') {
      found.push({ pointer: at, rule: 'unknown-mark', detail: 'Mark a trial correct, incorrect or null.' })
    }
    if (mark === null && minor.trials.slice(index).some((later) => later !== null)) {
      const detail = `Trial ${index + 1} of "${minor.code}" is blank although a later one is marked; blanks may only trail.`
      found.push({ pointer: at, rule: 'blank-between-marks', detail })
    }
  })
  return found
}

function faultsOf(definition: Definition, minor: MarkedMinor, pointer: string): Malformed[] {
  const faults = minor.faults ?? []
  return faults.flatMap((fault, index): Malformed[] => {
    const at = `${pointer}/faults/${index}`
    if (!definition.faults.some(({ code }) => code === fault.code)) {
      return [
        { pointer: `${at}/code`, rule: 'unknown-fault', detail: `"${fault.code}" is no fault of "${minor.code}".` },
      ]
    }
    if (minor.trials[fault.trial - 1] == null) {
      return [
        {
          pointer: `${at}/trial`,
          rule: 'fault-on-blank',
          detail: `Trial ${fault.trial} of "${minor.code}" is not marked.`,
        },
      ]
    }
    if (faults.findIndex((other) => other.trial === fault.trial && other.code === fault.code) < index) {
      return [{ pointer: at, rule: 'repeated-fault', detail: `"${fault.code}" is on trial ${fault.trial} twice.` }]
    }
    return []
  })
}

function readingOf(
  standard: ScoredStandard,
  definition: Definition,
  minor: MarkedMinor,
  reading: Reading,
  index: number,
  at: string,
): Malformed[] {
  const gauge = standard.gauges.find(({ code }) => code === reading.gauge)
  if (!gauge || !definition.gauges.includes(reading.gauge)) {
    return [
      {
        pointer: `${at}/gauge`,
        rule: 'gauge-not-of-measure',
        detail: `"${minor.code}" has no gauge "${reading.gauge}".`,
      },
    ]
  }
  if (typeof reading.value !== 'string' || !READING_VALUE.test(reading.value)) {
    const detail = 'A reading is text with up to four digits and up to four decimals, such as "5.25".'
    return [{ pointer: `${at}/value`, rule: 'reading-value', detail }]
  }
  const found: Malformed[] = []
  if (minor.trials[reading.trial - 1] == null) {
    const detail = `Trial ${reading.trial} of "${minor.code}" is not marked.`
    found.push({ pointer: `${at}/trial`, rule: 'reading-on-blank', detail })
  }
  const twin = (minor.readings ?? []).findIndex(
    (other) => other.trial === reading.trial && other.gauge === reading.gauge,
  )
  if (twin < index) {
    const detail = `Trial ${reading.trial} has two readings of "${reading.gauge}"; keep one.`
    found.push({ pointer: at, rule: 'repeated-reading', detail })
  }
  if (reading.override == null) return found
  if (reading.override.trim() === '') {
    found.push({
      pointer: `${at}/override`,
      rule: 'override-blank',
      detail: 'Say why the mark stands in spite of the reading.',
    })
  } else if (placeInBand(gauge, reading.value) === 'inside') {
    const detail = 'The reading lies inside its band; there is nothing to override.'
    found.push({ pointer: `${at}/override`, rule: 'override-inside-band', detail })
  }
  return found
}
