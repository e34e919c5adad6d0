import { Link } from 'wouter'
import type { DayList } from '#contract/test-days/day-list.ts'
import { addressTo, gradePaths } from '../../../paths.ts'
import { Section } from '../../../ui/section.tsx'

/** Whom the grader coaches, to practise with. */
export function CoachedPart({ coached }: { coached: DayList['coached'] }) {
  return (
    <Section title="Practice with your candidates" note="in no figure">
      <ul className="bookings">
        {coached.map(({ id, grade, familyName, givenName }) => (
          <li key={id}>
            <span className="booking-who">
              <bdi>
                {grade} {familyName}, {givenName}
              </bdi>
            </span>
            <Link className="button" href={addressTo(gradePaths.start, { coached: id })}>
              Practise
            </Link>
          </li>
        ))}
      </ul>
    </Section>
  )
}
