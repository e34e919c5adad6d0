import type { PossibleDuplicate } from '#contract/sheets/duplicates.ts'
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
