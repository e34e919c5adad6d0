import { queryOptions } from '@tanstack/react-query'
import * as endpoints from '#contract/soldiers/endpoints.ts'
import type { UnitBody, UnitChangeBody } from '#contract/soldiers/soldiers.ts'
import type { UnitMoveBody, UnitOrderBody } from '#contract/soldiers/unit-moves.ts'
import { call } from '../client.ts'
import { everyPage } from '../every-page.ts'

/** Every unit of the tree one may see. */
export const unitsQuery = queryOptions({
  queryKey: ['units'],
  staleTime: 5 * 60_000,
  queryFn: () => everyPage(endpoints.listUnits),
})

export const addUnit = (body: UnitBody) => call(endpoints.createUnit, { body })

export const changeUnit = (id: string, body: UnitChangeBody) => call(endpoints.changeUnit, { params: { id }, body })

export const removeUnit = (id: string) => call(endpoints.removeUnit, { params: { id } })

export const orderUnits = (body: UnitOrderBody) => call(endpoints.orderUnits, { body })

/** What a move would take along. */
export const movePreviewQuery = (id: string, { parentId, from }: UnitMoveBody) =>
  queryOptions({
    queryKey: ['units', id, 'move', parentId, from],
    queryFn: () => call(endpoints.previewUnitMove, { params: { id }, query: { ...(parentId && { parentId }), from } }),
  })

export const moveUnit = (id: string, body: UnitMoveBody) => call(endpoints.moveUnit, { params: { id }, body })
