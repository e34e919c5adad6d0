import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import { orderUnits, unitsQuery } from '../../../api/soldiers/units.ts'
import { sistersOf } from '../../../domain/soldiers/unit-tree.ts'
import { inWords } from '../../../words/format-number.ts'

/** Puts units in order among their sisters, at once on the screen, then in the record. */
export function useOrder(units: readonly Unit[]) {
  const client = useQueryClient()
  const [said, setSaid] = useState('')
  const saving = useMutation({
    mutationFn: ({ parentId, ids }: { parentId: string | null; ids: string[] }) => orderUnits({ parentId, ids }),
    onMutate: async ({ ids }) => {
      await client.cancelQueries({ queryKey: unitsQuery.queryKey })
      client.setQueryData(unitsQuery.queryKey, (known: Unit[] | undefined) =>
        known?.map((unit) => (ids.includes(unit.id) ? { ...unit, place: ids.indexOf(unit.id) + 1 } : unit)),
      )
    },
    onSettled: () => client.invalidateQueries({ queryKey: unitsQuery.queryKey, exact: true }),
  })
  /** Puts a unit where a sister of it stands. */
  const put = (unit: Unit, place: number) => {
    const sisters = sistersOf(units, unit)
    if (place < 0 || place >= sisters.length) return
    const ids = sisters.map(({ id }) => id).filter((id) => id !== unit.id)
    ids.splice(place, 0, unit.id)
    setSaid(`${unit.name} is number ${inWords(place + 1)} of ${inWords(ids.length)}.`)
    saving.mutate({ parentId: unit.parentId, ids })
  }
  return { put, said, error: saving.error }
}
