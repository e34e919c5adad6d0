import { useQuery } from '@tanstack/react-query'
import { unitsQuery } from '../../api/soldiers/units.ts'
import { certificationsQuery } from '../../api/standards/certifications.ts'
import { standardsQuery } from '../../api/standards/standards.ts'
import { timeZoneOf } from '../../domain/soldiers/unit-tree.ts'
import { certificationsOn, certificationTitle, standardTitle } from '../../domain/standards/titles.ts'
import { today as todayIn } from '../../words/today.ts'

/** What a page about ceremonies says things with: titles by code, units, and today in the zone of a unit. */
export const useWords = (unitId?: string) => {
  const tree = useQuery(unitsQuery).data
  const units = tree ?? []
  const known = useQuery(certificationsQuery).data
  const terms = known ?? []
  const standards = useQuery(standardsQuery).data ?? []
  const zone = timeZoneOf(units, unitId)
  const today = todayIn(zone)
  const certifications = certificationsOn(terms, today)
  return {
    isLoaded: tree !== undefined && known !== undefined,
    units,
    certifications,
    zone,
    today,
    certificationTitle: (code: string) => certificationTitle(certifications, code),
    standardTitle: (code: string) => standardTitle(standards, code),
  }
}

export type Words = ReturnType<typeof useWords>
