import { findMalformedMajors } from './find-malformed-majors.ts'
import { findMalformedMinor } from './find-malformed-minor.ts'
import type { Malformed, Marks, ScoredStandard } from './types.ts'

/**
 * Every place where marks cannot be what a grader wrote under this standard; an empty list means well-formed.
 * A sheet that merely stops too soon is unfinished, not malformed. Pointers are into the body of a sheet.
 */
export function findMalformed(standard: ScoredStandard, marks: Marks): Malformed[] {
  const found = marks.outcomeOnly ? besideOutcomeOnly(marks) : []
  found.push(...findMalformedMajors(standard, marks.majors))
  const seen = new Set<string>()
  marks.minors.forEach((minor, index) => {
    const pointer = `/minors/${index}`
    const definition = standard.minors.find(({ code }) => code === minor.code)
    if (!definition) {
      found.push({
        pointer: `${pointer}/code`,
        rule: 'unknown-measure',
        detail: `The standard has no measure "${minor.code}".`,
      })
    } else if (seen.has(minor.code)) {
      found.push({
        pointer: `${pointer}/code`,
        rule: 'repeated-measure',
        detail: `"${minor.code}" is on the sheet already.`,
      })
    } else {
      found.push(...findMalformedMinor(standard, definition, minor, pointer))
    }
    seen.add(minor.code)
  })
  if (found.length === 0) found.push(...marksAfterTheEnd(standard, marks))
  return found
}

function besideOutcomeOnly(marks: Marks): Malformed[] {
  const found: Malformed[] = []
  const detail =
    'A record of the outcome alone has neither marks nor a void beside it: leave out either them or the outcome.'
  if (marks.void) found.push({ pointer: '/void', rule: 'beside-outcome-only', detail })
  marks.majors.forEach((major, index) => {
    if (major.mark != null || major.atCall != null || major.faults?.length) {
      found.push({ pointer: `/majors/${index}`, rule: 'beside-outcome-only', detail })
    }
  })
  marks.minors.forEach((minor, index) => {
    if (minor.trials.some((mark) => mark !== null) || minor.faults?.length || minor.readings?.length) {
      found.push({ pointer: `/minors/${index}`, rule: 'beside-outcome-only', detail })
    }
  })
  return found
}

/** Once a major measure is NO-GO nothing more is called; the earliest of two ends the test. */
function marksAfterTheEnd(standard: ScoredStandard, marks: Marks): Malformed[] {
  const ends = marks.majors.filter((major) => major.mark === 'NO-GO').map((major) => major.atCall ?? 0)
  if (ends.length === 0) return []
  const end = Math.min(...ends)
  const found: Malformed[] = []
  standard.calls.slice(end).forEach((call, offset) => {
    const index = marks.minors.findIndex((minor) => minor.code === call.measure)
    if (marks.minors[index]?.trials[call.trial - 1] == null) return
    found.push({
      pointer: `/minors/${index}/trials/${call.trial - 1}`,
      rule: 'mark-after-end',
      detail: `Call ${end + offset + 1} is marked, but a major NO-GO ended the test after ${end} calls; blank the mark, or mend after how many calls it fell.`,
    })
  })
  return found
}
