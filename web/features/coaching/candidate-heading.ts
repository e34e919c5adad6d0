import { shortName } from '../../domain/soldiers/format-person.ts'
import { formatCandidate } from './format-candidate.ts'
import { formatOwnStanding } from './format-own-standing.ts'
import type { Candidate } from './use-candidate.ts'

/** The first sentence of the page, to the soldier or about them. */
export function answerOf({
  soldier,
  statuses,
  sheets,
  certifications,
  ahead,
  titles,
  ...candidate
}: Candidate): string {
  const { code, isOwn, today } = candidate
  if (!isOwn) return formatCandidate({ name: shortName(soldier), statuses, sheets, titles, shown: code, today })
  const about = (certification: string) => {
    const arms = certifications.find((one) => one.code === certification)?.arms ?? []
    return arms.length === 1 ? `with the ${arms[0]}` : `in ${titles.certification(certification)}`
  }
  return formatOwnStanding({ statuses, ahead, about, standardTitle: titles.standard, today })
}

/** The sentence beneath it, which names the standard where there is a choice. */
export const whyOf = ({ view, taken }: Candidate) =>
  taken.length > 1 && view.why ? `${view.title}: ${view.why}` : view.why
