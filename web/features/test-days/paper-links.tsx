import { Link } from 'wouter'
import type { Standard } from '#contract/standards/standards.ts'
import type { LineBooking } from '#contract/test-days/running-tests.ts'
import { newestStandards } from '../../domain/standards/titles.ts'
import { addressTo, paths } from '../../paths.ts'

interface PaperLinksProps {
  bookings: readonly Pick<LineBooking, 'standard' | 'arms'>[]
  standards: readonly Standard[]
}

/** The call list and blank sheet of every standard of the day, for the arms that its candidates carry. */
export function PaperLinks({ bookings, standards }: PaperLinksProps) {
  const wanted = newestStandards(standards).flatMap(({ code, title, arms }) => {
    const own = bookings.filter(({ standard }) => standard === code)
    if (own.length === 0) return []
    const carried = arms.filter((arm) => own.some((booking) => booking.arms.includes(arm)))
    return (carried.length > 0 ? carried : ['']).map((arm) => ({ code, title, arm }))
  })
  if (wanted.length === 0) {
    return (
      <p>
        Once somebody is booked, the call lists and blank sheets of the day’s standards are here. All are under{' '}
        <Link href={paths.standards}>Standards</Link>.
      </p>
    )
  }
  return (
    <ul className="plain-list">
      {wanted.map(({ code, title, arm }) => (
        <li key={`${code} ${arm}`}>
          <Link href={addressTo(paths.paper, { id: code, arm })}>
            Call list and blank sheet: {title}
            {arm && `, ${arm}`}
          </Link>
        </li>
      ))}
    </ul>
  )
}
