import type { Unplaced } from '../../../domain/plans/retests/unplaced.ts'

const MOST_NAMED = 3

interface Taker {
  readonly candidateName: string
  readonly due: string | null
}

/** Why a test is not placed, in a sentence. In: who has the slots it could have, and the sponsors it waits for. */
export function formatReason(
  { reason, earliest }: Unplaced,
  takenBy: readonly Taker[],
  sponsors: readonly string[],
): string {
  switch (reason) {
    case 'no slot':
      return 'There is no slot of a test day in this period.'
    case 'taken':
      return `Every slot that would do is taken: by ${listed(takenBy.map(formatTaker))}.`
    case 'clash':
      return 'What is left clashes with another test of the candidate, or of somebody the sponsor or grader is with.'
    case 'needs review':
      return 'A review must be held and entered first.'
    case 'not before':
      return earliest === null
        ? 'Not before the days of this period are over.'
        : `Not before ${earliest}, and no slot is left after that.`
    case 'sponsor never free':
      return sponsors.length === 0
        ? 'Nobody is entered as the sponsor.'
        : `The sponsor is never free and certified when a slot is: ${listed(sponsors)}.`
    case 'only coached graders':
      return 'The only graders there coached the candidate.'
    case 'no grader':
      return 'No grader of these days may grade this standard.'
    default:
      return 'Nothing fits: every slot is ruled out, each by something else.'
  }
}

const formatTaker = ({ candidateName, due }: Taker): string =>
  due === null ? `${candidateName} (no due day)` : `${candidateName} (due ${due})`

function listed(names: readonly string[]): string {
  const said = names.slice(0, MOST_NAMED)
  const more = names.length - said.length
  return more > 0 ? `${said.join('; ')} and ${more} more` : said.join('; ')
}
