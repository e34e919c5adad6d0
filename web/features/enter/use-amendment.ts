import { useQueries, useQuery } from '@tanstack/react-query'
import { useMemo } from 'react'
import type { Unit } from '#contract/people.ts'
import type { Standard } from '#contract/standards.ts'
import { sheetQuery } from '../../api/sheets.ts'
import { soldierQuery } from '../../api/soldiers.ts'
import { versionOf } from '../../model/measure-marks.ts'
import { listName } from '../../model/say-person.ts'
import { timeZoneOf } from '../../model/unit-tree.ts'
import { deviceZone } from '../../words/today.ts'
import { fromBody } from './from-body.ts'

/** A stored sheet as a draft to amend, once everything about it is loaded. Without an id nothing is asked for. */
export const useAmendment = (
  id: string,
  standards: readonly Standard[] | undefined,
  units: readonly Unit[] | undefined,
) => {
  const sheet = useQuery({ ...sheetQuery(id), enabled: id !== '' })
  const body = sheet.data?.revisions.at(-1)?.body
  const ids = body ? [...new Set([body.candidateId, body.graderId, body.sponsorId].filter((one) => one !== null))] : []
  const people = useQueries({ queries: ids.map(soldierQuery) })
  const settled = people.every(({ isPending }) => !isPending)
  const names = people.flatMap(({ data }) => (data ? [[data.id, listName(data)] as const] : []))
  const candidate = people.find(({ data }) => data?.id === body?.candidateId)?.data
  const nameList = JSON.stringify(names)

  const draft = useMemo(() => {
    if (!body || !standards || !units || !settled) return null
    const known = new Map(JSON.parse(nameList) as [string, string][])
    const zone = timeZoneOf(units, candidate?.unitId ?? units[0]?.id) ?? deviceZone()
    const standardId = versionOf(standards, body)?.id ?? ''
    return fromBody(id, body, standardId, zone, (person) => known.get(person) ?? 'not visible to you')
  }, [id, body, standards, units, settled, candidate?.unitId, nameList])
  return { draft, error: sheet.error }
}
