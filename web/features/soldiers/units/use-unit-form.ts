import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { UnitLevel } from '#contract/soldiers/levels.ts'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import { addUnit, changeUnit, unitsQuery } from '../../../api/soldiers/units.ts'
import { levelBelow } from '../../../domain/soldiers/levels.ts'

interface Subject {
  units: readonly Unit[]
  levels: readonly UnitLevel[]
  /** The one that is changed; without it a new one. */
  unit: Unit | undefined
  /** Below this one a new one is likely to go. */
  below: string | null
  onDone: () => void
}

/** What is filled in of a unit, and storing it. */
export const useUnitForm = ({ units, levels, unit, below, onDone }: Subject) => {
  const client = useQueryClient()
  const [name, setName] = useState(unit?.name ?? '')
  const [kind, setKind] = useState(unit?.kind ?? levelBelow(levels, units.find(({ id }) => id === below)?.kind))
  const [parentId, setParentId] = useState(below)
  const [timeZone, setTimeZone] = useState(unit?.timeZone ?? '')
  const [closedFrom, setClosedFrom] = useState(unit?.closedFrom ?? '')
  /** A new unit most likely is of the level below the one above it. */
  const putBelow = (above: string | null) => {
    setParentId(above)
    setKind(levelBelow(levels, units.find(({ id }) => id === above)?.kind))
  }
  const closing = closedFrom === (unit?.closedFrom ?? '') ? {} : { closedFrom: closedFrom || null }
  const saving = useMutation({
    mutationFn: () => {
      const body = { name: name.trim(), kind, timeZone: timeZone.trim() || null }
      return unit ? changeUnit(unit.id, { ...body, ...closing }) : addUnit({ ...body, parentId })
    },
    onSuccess: async () => {
      await client.invalidateQueries({ queryKey: unitsQuery.queryKey })
      onDone()
    },
  })
  const values = { name, setName, kind, setKind, parentId, putBelow, timeZone, setTimeZone, closedFrom, setClosedFrom }
  return { ...values, saving }
}

/** The form with what is filled in. */
export type UnitFormState = ReturnType<typeof useUnitForm>
