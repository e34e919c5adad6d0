import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { Soldier, SoldierChange, SoldierChangeBody } from '#contract/soldiers/soldiers.ts'
import type { Certification } from '#contract/standards/certifications.ts'
import { listsQuery } from '../../api/soldiers/arms-and-grades.ts'
import { correctChange, enterChange, invalidatePeople } from '../../api/soldiers/people.ts'
import { armsForGrade } from '../../domain/soldiers/arms-for-grade.ts'
import { carriesArms } from '../../domain/soldiers/carries-arms.ts'
import { codesOf } from '../../parts/soldiers/unlisted.tsx'
import { today } from '../../words/today.ts'

export const KINDS = {
  move: 'Moves to another unit',
  promotion: 'Changes grade',
  arms: 'Changes arms',
  leave: 'Leaves the unit',
  return: 'Joins or returns',
} as const
export type Kind = keyof typeof KINDS

export const LEAVING = { transferred: 'Transferred', separated: 'Separated', other: 'For another reason' } as const
export type Leaving = keyof typeof LEAVING

/** What kind of change an entered one is. */
const kindOf = ({ left, unitId, grade, arms }: SoldierChange): Kind =>
  left ? 'leave' : unitId ? (grade || arms ? 'return' : 'move') : grade ? 'promotion' : 'arms'

interface Subject {
  soldier: Soldier
  certifications: readonly Certification[]
  /** The change to correct; null: a new one is entered. */
  change: SoldierChange | null
  onDone: (said: string) => void
}

/** What is filled in of a change, which of it the kind of change asks for, and storing it. A grade brings its arms. */
export const useChangeForm = ({ soldier, certifications, change, onDone }: Subject) => {
  const client = useQueryClient()
  const lists = useQuery(listsQuery).data
  const [kind, setKind] = useState<Kind>(change ? kindOf(change) : soldier.unitId ? 'move' : 'return')
  const [from, setFrom] = useState(change?.from ?? today())
  const [unitId, setUnitId] = useState(change?.unitId ?? '')
  const [grade, setGrade] = useState(change?.grade ?? soldier.grade)
  const [arms, setArms] = useState((change?.arms ?? soldier.arms).join(', '))
  const [left, setLeft] = useState<Leaving>(change?.left ?? 'transferred')
  const [reason, setReason] = useState('')
  const has = (...kinds: Kind[]) => kinds.includes(kind)
  const body = (): SoldierChangeBody => ({
    from,
    ...(has('move', 'return') && { unitId }),
    ...(has('promotion', 'return') && { grade: grade.trim() }),
    ...(has('promotion', 'arms', 'return') && { arms: codesOf(arms) }),
    ...(has('leave') && { left }),
  })
  const store = useMutation({
    mutationFn: () =>
      change
        ? correctChange(soldier.id, change.id, { ...body(), reason: reason.trim() })
        : enterChange(soldier.id, body()),
    onSuccess: () => {
      onDone(change ? 'It is corrected, and everything that depends on it follows.' : 'It is entered.')
      return Promise.all([invalidatePeople(client), client.invalidateQueries({ queryKey: listsQuery.queryKey })])
    },
  })
  const changeGrade = (next: string) => {
    setGrade(next)
    setArms(armsForGrade(certifications, soldier.arms, soldier.grade, next.trim()).join(', '))
  }
  const suggested = armsForGrade(certifications, soldier.arms, soldier.grade, grade)
  const carries = carriesArms(lists) || soldier.arms.length > 0 || kind === 'arms'
  const values = { kind, setKind, from, setFrom, unitId, setUnitId, grade, changeGrade, arms, setArms, left, setLeft }
  return { ...values, reason, setReason, has, suggested, carries, lists, store }
}

/** The form with what is filled in. */
export type ChangeFormState = ReturnType<typeof useChangeForm>
