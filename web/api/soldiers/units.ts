import { queryOptions } from '@tanstack/react-query'
import type { Created } from '#contract/common.ts'
import type { UnitBody, UnitChangeBody, UnitPage } from '#contract/soldiers/soldiers.ts'
import { allPages } from '../all-pages.ts'
import { remove, send } from '../client.ts'

/** Every unit of the tree one may see. */
export const unitsQuery = queryOptions({
  queryKey: ['units'],
  staleTime: 5 * 60_000,
  queryFn: () => allPages<typeof UnitPage>('/units'),
})

export const addUnit = (body: UnitBody) => send<typeof Created>('POST', '/units', body)

export const changeUnit = (id: string, body: UnitChangeBody) => send<typeof Created>('PATCH', `/units/${id}`, body)

export const removeUnit = (id: string) => remove(`/units/${id}`)
