import { useQuery } from '@tanstack/react-query'
import { useMemo } from 'react'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import type { Standard } from '#contract/standards/standards.ts'
import { sheetQuery } from '../../../api/sheets/sheets.ts'
import { soldierQuery } from '../../../api/soldiers/soldiers.ts'
import { timeZoneOf } from '../../../domain/soldiers/unit-tree.ts'
import { versionOf } from '../../../parts/sheets/measure-marks.ts'
import { unitZone } from '../../../words/unit-zone.ts'
import { fromBody } from './from-body.ts'

/** A stored sheet as a draft to amend, once everything about it is loaded. Without an id nothing is asked for. */
export const useAmendment = (
  id: string,
  standards: readonly Standard[] | undefined,
  units: readonly Unit[] | undefined,
) => {
  const sheet = useQuery({ ...sheetQuery(id), enabled: id !== '' })
  const body = sheet.data?.revisions.at(-1)?.body
  const people = sheet.data?.people
  const candidate = useQuery(soldierQuery(body?.candidateId ?? ''))

  const draft = useMemo(() => {
    if (!body || !people || !standards || !units || candidate.isPending) return null
    const zone = timeZoneOf(units, candidate.data?.unitId) ?? unitZone()
    const standardId = versionOf(standards, body)?.id ?? ''
    return fromBody(id, body, standardId, zone, (person) => people[person] ?? 'not visible to you')
  }, [id, body, people, standards, units, candidate.isPending, candidate.data?.unitId])
  return { draft, error: sheet.error }
}
