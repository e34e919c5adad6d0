/** What of a grade sheet the model looks at. Trials not marked are no data, so a measure not reached has none. */
export interface AbilitySheet {
  /** From 0. */
  readonly candidate: number
  /** From 0; −1: not known, or graders are left out of the model. */
  readonly grader: number
  /** What the gains are multiplied by, such as a 1 for the kind of attempt; one a gain of the design. */
  readonly gains: readonly number[]
  /** Measures by their place among all measures of the design. */
  readonly measures: readonly number[]
  /** Correct trials and marked trials of each of them. */
  readonly correct: ArrayLike<number>
  readonly tried: ArrayLike<number>
}

/** How many there are of what the model is about. */
export interface AbilityDesign {
  readonly candidates: number
  readonly graders: number
  readonly gains: number
  /**
   * For each measure, which strength of the candidate it draws on. Two versions of a measure that differ have an ease each
   * and one strength.
   */
  readonly strengthOf: readonly number[]
}

/** The sheets packed by candidate, for arithmetic on many: of each list, `start[i]` to `start[i + 1]` belong to i. */
export interface AbilityData {
  readonly design: AbilityDesign
  /** Sheets of a candidate. */
  readonly sheetStart: Int32Array
  /** Strengths of a candidate that some trial speaks of. */
  readonly slotStart: Int32Array
  /** Measures marked on a sheet. */
  readonly cellStart: Int32Array
  /** By sheet. */
  readonly grader: Int32Array
  /** By sheet, `gains` running. */
  readonly gain: Float64Array
  /** By sheet: its place in the list that was packed. */
  readonly source: Int32Array
  /** By cell: measure, slot from 0 within the candidate, correct and marked trials. */
  readonly measure: Int32Array
  readonly slot: Int32Array
  readonly correct: Float64Array
  readonly tried: Float64Array
  /** By slot: which strength it is. */
  readonly strength: Int32Array
}

/** Packs sheets in whatever order they come; a candidate's own keep their order. Sheets without a marked trial are left out. */
export function packSheets(design: AbilityDesign, sheets: readonly AbilitySheet[]): AbilityData {
  const marked = sheets.map((sheet, source) => ({ sheet, source })).filter(({ sheet }) => sum(sheet.tried) > 0)
  const ordered = marked.sort((a, b) => a.sheet.candidate - b.sheet.candidate || a.source - b.source)
  const cells = ordered.reduce((count, { sheet }) => count + sheet.measures.length, 0)
  const sheetStart = new Int32Array(design.candidates + 1)
  const slotStart = new Int32Array(design.candidates + 1)
  const cellStart = new Int32Array(ordered.length + 1)
  const measure = new Int32Array(cells)
  const slot = new Int32Array(cells)
  const correct = new Float64Array(cells)
  const tried = new Float64Array(cells)
  const strength: number[] = []
  const slotOf = new Int32Array(Math.max(0, ...design.strengthOf) + 1)
  let [cell, at] = [0, 0]
  for (let candidate = 0; candidate < design.candidates; candidate++) {
    slotOf.fill(-1)
    const first = strength.length
    for (; at < ordered.length && ordered[at]!.sheet.candidate === candidate; at++) {
      const { measures, correct: right, tried: marks } = ordered[at]!.sheet
      for (let i = 0; i < measures.length; i++) {
        if (!(marks[i]! > 0)) continue
        const drawsOn = design.strengthOf[measures[i]!]!
        if (slotOf[drawsOn] === -1) slotOf[drawsOn] = strength.push(drawsOn) - 1 - first
        measure[cell] = measures[i]!
        slot[cell] = slotOf[drawsOn]!
        correct[cell] = right[i]!
        tried[cell] = marks[i]!
        cell += 1
      }
      cellStart[at + 1] = cell
    }
    sheetStart[candidate + 1] = at
    slotStart[candidate + 1] = strength.length
  }
  return {
    design,
    sheetStart,
    slotStart,
    cellStart,
    grader: Int32Array.from(ordered, ({ sheet }) => sheet.grader),
    gain: Float64Array.from(ordered.flatMap(({ sheet }) => [...sheet.gains])),
    source: Int32Array.from(ordered, ({ source }) => source),
    measure: measure.subarray(0, cell),
    slot: slot.subarray(0, cell),
    correct: correct.subarray(0, cell),
    tried: tried.subarray(0, cell),
    strength: Int32Array.from(strength),
  }
}

/** The data of every so-many-th candidate alone; the design stays. */
export function everySoManyth(data: AbilityData, every: number): AbilityData {
  const { design, sheetStart, cellStart } = data
  const sheets: AbilitySheet[] = []
  for (let candidate = 0; candidate < design.candidates; candidate += every) {
    for (let sheet = sheetStart[candidate]!; sheet < sheetStart[candidate + 1]!; sheet++) {
      const [from, to] = [cellStart[sheet]!, cellStart[sheet + 1]!]
      sheets.push({
        candidate,
        grader: data.grader[sheet]!,
        gains: [...data.gain.subarray(sheet * design.gains, (sheet + 1) * design.gains)],
        measures: [...data.measure.subarray(from, to)],
        correct: data.correct.subarray(from, to),
        tried: data.tried.subarray(from, to),
      })
    }
  }
  return packSheets(design, sheets)
}

function sum(numbers: ArrayLike<number>): number {
  let total = 0
  for (let i = 0; i < numbers.length; i++) total += numbers[i]!
  return total
}
