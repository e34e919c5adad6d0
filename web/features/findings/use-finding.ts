import { useQuery } from '@tanstack/react-query'
import { unitsQuery } from '../../api/soldiers/units.ts'
import { standardsQuery } from '../../api/standards/standards.ts'
import { fullUnitName } from '../../domain/soldiers/unit-tree.ts'
import { measureTitle, standardTitle } from '../../domain/standards/titles.ts'
import { useFilters } from '../../ui/use-filters.ts'
import { eraTitle } from './era-title.ts'

/** Filters that every page of findings understands. */
export const FINDING_FILTERS = ['standard', 'from', 'to', 'unitId', 'attempts', 'arm'] as const

export type FindingFilters = Record<(typeof FINDING_FILTERS)[number], string>

interface Figure {
  standard: string
  measure: string
  versions: readonly number[]
  current: boolean
}

/** What the pages of findings share: filters from the address, units and standards with their titles. */
export const useFinding = () => {
  const [filters, setFilters] = useFilters(FINDING_FILTERS)
  const units = useQuery(unitsQuery).data ?? []
  const standards = useQuery(standardsQuery).data ?? []
  return {
    filters,
    setFilters,
    units,
    standards,
    unitName: fullUnitName(units, filters.unitId || null),
    titleOf: (figure: Figure) => eraTitle(measureTitle(standards, figure.standard, figure.measure), figure),
    standardOf: ({ standard }: { standard: string }) => standardTitle(standards, standard),
  }
}
