import type { Malformed, MarkedMajor, ScoredStandard } from './types.ts'

/** Malformed major measures of a sheet: codes, marks, the call a NO-GO fell at, faults. A fault without a mark is kept: a void test may have noted it. */
export function findMalformedMajors(standard: ScoredStandard, majors: readonly MarkedMajor[]): Malformed[] {
  const found: Malformed[] = []
  const seen = new Set<string>()
  majors.forEach((major, index) => {
    const pointer = `/majors/${index}`
    const definition = standard.majors.find(({ code }) => code === major.code)
    if (!definition) {
      found.push({
        pointer: `${pointer}/code`,
        rule: 'unknown-major',
        detail: `The standard has no major measure "${major.code}".`,
      })
      return
    }
    if (seen.has(major.code)) {
      found.push({
        pointer: `${pointer}/code`,
        rule: 'repeated-major',
        detail: `"${major.code}" is on the sheet already.`,
      })
      return
    }
    seen.add(major.code)
    found.push(...markAndCall(standard, major, pointer), ...faultsOf(definition.faults, major, pointer))
  })
  return found
}

function markAndCall(standard: ScoredStandard, major: MarkedMajor, pointer: string): Malformed[] {
  if (major.mark != null && major.mark !== 'GO' && major.mark !== 'NO-GO') {
    return [{ pointer: `${pointer}/mark`, rule: 'unknown-mark', detail: 'A major measure is GO, NO-GO or null.' }]
  }
  const calls = standard.calls.length
  if (major.mark !== 'NO-GO') {
    if (major.atCall == null) return []
    return [
      {
        pointer: `${pointer}/atCall`,
        rule: 'at-call',
        detail: 'Only a NO-GO says after how many calls it fell; leave that out.',
      },
    ]
  }
  if (Number.isInteger(major.atCall) && major.atCall! >= 0 && major.atCall! <= calls) return []
  const detail = `A NO-GO says after how many calls it fell: a whole number from 0 to ${calls}.`
  return [{ pointer: `${pointer}/atCall`, rule: 'at-call', detail }]
}

function faultsOf(known: readonly { readonly code: string }[], major: MarkedMajor, pointer: string): Malformed[] {
  const faults = major.faults ?? []
  return faults.flatMap((code, index): Malformed[] => {
    const at = `${pointer}/faults/${index}`
    if (!known.some((fault) => fault.code === code)) {
      return [{ pointer: at, rule: 'unknown-fault', detail: `"${code}" is no fault of "${major.code}".` }]
    }
    if (faults.indexOf(code) < index) {
      return [{ pointer: at, rule: 'repeated-fault', detail: `"${code}" is listed twice.` }]
    }
    return []
  })
}
