import type { PossibleDuplicate } from '#contract/sheets/duplicates.ts'
import { capital, countedInWords } from '../../../words/format-number.ts'
import { formatTime } from '../../../words/format-time.ts'

type Taken = PossibleDuplicate['earlier']

/** When a sheet says the test was, and how it stands. */
export const formatTaken = ({ startedAt, finishedAt, state }: Taken): string =>
  `${formatTime(startedAt, null)} to ${formatTime(finishedAt, null)}, ${state === 'counted' ? 'counts' : state}`

/** Which of two sheets is meant: by its grader, and where both have one grader, by its end. */
export const formatWhoseStands = (sheet: Taken, other: Taken): string => {
  const familyName = sheet.grader.split(',')[0]
  if (sheet.graderId !== other.graderId) return `${familyName}’s sheet stands`
  if (sheet.finishedAt !== other.finishedAt) return `The sheet closed at ${formatTime(sheet.finishedAt, null)} stands`
  return sheet.receivedAt <= other.receivedAt
    ? 'The sheet that came in first stands'
    : 'The sheet that came in last stands'
}

interface Asked {
  /** Only attempts of which the outcomes differ were asked for. */
  readonly differing: boolean
  /** There are more than were counted. */
  readonly isMore: boolean
  /** Pairs of sheets that may be of one test. */
  readonly duplicates: number
}

/** "Two attempts on which two graders came to different outcomes, and one test perhaps sent twice." */
export function formatGradedByTwo(pairs: number, { differing, isMore, duplicates }: Asked): string {
  const sent = duplicates > 0 && `${countedInWords(duplicates, 'test')} perhaps sent twice`
  if (pairs === 0 && sent) return capital(`${sent}; choose which sheet stands.`)
  const attempts = `${countedInWords(pairs, 'attempt')}${isMore ? ' so far' : ''}`
  const graded = `${attempts} ${differing ? 'on which two graders came to different outcomes' : 'graded by two'}`
  return capital(`${graded}${sent ? `, and ${sent}` : ''}.`)
}
