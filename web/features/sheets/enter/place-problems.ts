import type { SheetBody } from '#contract/sheets/sheets.ts'
import type { Cell } from './cells.ts'
import type { HeadErrors, HeadField } from './to-body.ts'

interface Problem {
  pointer: string
  detail: string
}

export interface PlacedProblems {
  head: HeadErrors
  /** What is wrong with a place on the sheet, by `cellKey`. */
  cells: Record<string, string>
  /** What has no place on the screen. */
  other: string[]
}

export const cellKey = ({ code, trial }: Cell): string => `${code} ${trial}`

const HEAD: Record<string, HeadField> = {
  candidateId: 'candidate',
  sponsorId: 'sponsor',
  graderId: 'grader',
  arm: 'arm',
  standard: 'standard',
  standardVersion: 'standard',
  startedAt: 'start',
  finishedAt: 'finish',
  void: 'void',
  reason: 'reason',
}

/** Puts each problem, told by a JSON pointer into the body (within `/sheet` for an amendment), where its cause was typed. */
export const placeProblems = (
  problems: readonly Problem[],
  body: Pick<SheetBody, 'majors' | 'minors'>,
): PlacedProblems => {
  const placed: PlacedProblems = { head: {}, cells: {}, other: [] }
  for (const { pointer, detail } of problems) {
    const steps = pointer
      .replace(/^\/sheet(?=\/)/, '')
      .split('/')
      .slice(1)
    const [top = ''] = steps
    const cell = top === 'majors' || top === 'minors' ? cellOf(top, steps, body) : null
    const field = HEAD[top]
    if (cell) placed.cells[cellKey(cell)] ??= detail
    else if (field) placed.head[field] ??= detail
    else placed.other.push(detail)
  }
  return placed
}

const cellOf = (
  kind: 'majors' | 'minors',
  steps: readonly string[],
  body: Pick<SheetBody, 'majors' | 'minors'>,
): Cell | null => {
  const [, index, list, place] = steps
  if (kind === 'majors') {
    const major = body.majors[Number(index)]
    return major ? { code: major.code, trial: 0 } : null
  }
  const minor = body.minors[Number(index)]
  if (!minor) return null
  const noted =
    list === 'faults' ? minor.faults[Number(place)] : list === 'readings' ? minor.readings[Number(place)] : undefined
  const trial = list === 'trials' && place !== undefined ? Number(place) + 1 : (noted?.trial ?? 1)
  return { code: minor.code, trial }
}
