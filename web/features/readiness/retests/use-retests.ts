import { useQuery } from '@tanstack/react-query'
import type { Retest } from '#contract/standards/certifications.ts'
import type { Booking } from '#contract/test-days/test-days.ts'
import { useForecasts } from '../../../api/ability/use-forecasts.ts'
import { retestsQuery } from '../../../api/readiness/retests.ts'
import { unitsQuery } from '../../../api/soldiers/units.ts'
import { certificationsQuery } from '../../../api/standards/certifications.ts'
import { standardsQuery } from '../../../api/standards/standards.ts'
import { bookingsQuery } from '../../../api/test-days/bookings.ts'
import { testDaysQuery } from '../../../api/test-days/test-days.ts'
import { useMay } from '../../../api/use-may.ts'
import { timeZoneOf } from '../../../domain/soldiers/unit-tree.ts'
import { certificationsOn } from '../../../domain/standards/titles.ts'
import { useFilters } from '../../../ui/use-filters.ts'
import { today as todayIn } from '../../../words/today.ts'
import { retestsInState } from './filter-retests.ts'

const FILTERS = ['asOf', 'unitId', 'certification', 'state', 'booking', 'view', 'book'] as const

export type RetestFilters = Record<(typeof FILTERS)[number], string>

const isAhead = ({ state }: Booking): boolean => state === 'booked' || state === 'checked in'

/**
 * The backlog as the address asks for it, and what names and books it. `all` are those of the unit and certification,
 * `list` those of them that are shown, the first due first; both undefined until they are there.
 */
export const useRetests = () => {
  const [filters, setFilters] = useFilters(FILTERS)
  const units = useQuery(unitsQuery).data ?? []
  const standards = useQuery(standardsQuery).data ?? []
  const zone = timeZoneOf(units, filters.unitId)
  const today = todayIn(zone)
  const asOf = filters.asOf || today
  const certifications = certificationsOn(useQuery(certificationsQuery).data ?? [], today)
  const retests = useQuery(retestsQuery({ asOf: filters.asOf || undefined, unitId: filters.unitId || undefined }))
  const mayBook = useMay('plan-test-days') && asOf === today
  const days = useQuery({ ...testDaysQuery({ from: today }), enabled: mayBook })
  const bookable =
    days.data
      ?.filter(({ id, calledOff, freeSlots }) => id === filters.book || (!calledOff && freeSlots > 0))
      .toReversed() ?? []
  const bookings = useQuery({ ...bookingsQuery({ from: today }), enabled: asOf === today })
  const bookedOn = (one: Retest) =>
    bookings.data?.find((each) => isAhead(each) && each.candidateId === one.soldierId && each.standard === one.standard)
  const all = retests.data?.filter(
    ({ certification }) => !filters.certification || certification === filters.certification,
  )
  const list =
    all &&
    (filters.booking === '' || bookings.data) &&
    retestsInState(all, filters.state, asOf)
      .filter((one) => filters.booking === '' || (bookedOn(one) !== undefined) === (filters.booking === 'booked'))
      .sort((a, b) => a.due.localeCompare(b.due) || a.name.localeCompare(b.name))
  const forecastOf = useForecasts(list ?? [], { asOf: filters.asOf || undefined })
  const words = { units, standards, certifications }
  return { filters, setFilters, words, zone, today, asOf, retests, all, list, mayBook, bookable, bookedOn, forecastOf }
}
