import type { SheetBody } from '../../../server/contract/sheets/sheets.ts'
import type { Random } from '../random.ts'

/** A sheet as it was first entered, with a mistake, and why it is amended. */
export interface Miswritten {
  readonly body: SheetBody
  readonly reason: string
}

/** Puts a writing mistake on a completed sheet: a slipped point in a reading, or a trial marked in the wrong box. */
export function miswrite(random: Random, right: SheetBody): Miswritten {
  return random.chance(0.5) ? (slippedPoint(random, right) ?? wrongBox(random, right)) : wrongBox(random, right)
}

function slippedPoint(random: Random, right: SheetBody): Miswritten | null {
  const measured = withAllTrials(right).filter(({ readings }) => readings.some(({ override }) => override === null))
  if (measured.length === 0) return null
  const minor = random.pick(measured)
  const slipped = minor.readings.find(({ override }) => override === null)!
  const value = String(Number(slipped.value) * 10)
  const readings = minor.readings.map((one) => (one === slipped ? { ...one, value } : one))
  return {
    body: withMinor(right, { ...minor, readings }),
    reason: `Point slipped in a reading: ${slipped.value}, not ${value}.`,
  }
}

function wrongBox(random: Random, right: SheetBody): Miswritten {
  const minor = random.pick(withAllTrials(right))
  const trial = random.integer(1, minor.trials.length)
  const isCorrect = minor.trials[trial - 1] === 'correct'
  const trials = minor.trials.map((mark, index) => (index + 1 === trial ? (isCorrect ? 'incorrect' : 'correct') : mark))
  return {
    body: withMinor(right, { ...minor, trials }),
    reason: `Trial ${trial} was ${isCorrect ? 'correct' : 'incorrect'}; marked in the wrong box.`,
  }
}

/** Measures of which no trial was left out, so that a mark more or less leaves none undecided. */
function withAllTrials({ minors }: SheetBody): SheetBody['minors'] {
  const all = Math.max(...minors.map(({ trials }) => trials.length))
  return minors.filter(({ trials }) => trials.length === all)
}

const withMinor = (sheet: SheetBody, minor: SheetBody['minors'][number]): SheetBody => ({
  ...sheet,
  minors: sheet.minors.map((one) => (one.code === minor.code ? minor : one)),
})
