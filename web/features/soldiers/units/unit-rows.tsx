import { useEffect, useRef } from 'react'
import { Link } from 'wouter'
import type { UnitLevel } from '#contract/soldiers/levels.ts'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import { levelOf } from '../../../domain/soldiers/levels.ts'
import { sistersOf, unitsInOrder } from '../../../domain/soldiers/unit-tree.ts'
import { addressTo, paths } from '../../../paths.ts'
import { Button } from '../../../ui/button.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { Table } from '../../../ui/table.tsx'
import { capital } from '../../../words/format-number.ts'
import { formatClosed } from './format-units.ts'
import { useDragUnit } from './use-drag-unit.ts'
import { useOrder } from './use-order.ts'

const INDENT = '\u2003'

export type Open = { to: 'add'; below: string | null } | { to: 'change' | 'move' | 'remove'; unit: Unit }

interface UnitRowsProps {
  units: readonly Unit[]
  levels: readonly UnitLevel[] | undefined
  today: string
  onOpen: (open: Open) => void
}

/** The tree, a row a unit: put in order by dragging, by the buttons, or by Alt and an arrow key on any of a row's buttons. */
export function UnitRows({ units, levels, today, onOpen }: UnitRowsProps) {
  const { put, said, error } = useOrder(units)
  const { keep, onKeyDown } = useKeys(units, put)
  const drag = useDragUnit(units, (unit, onto) => put(unit, placeOf(units, onto)))
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: Alt and an arrow key do what the buttons within do
    <div onKeyDown={onKeyDown}>
      <Table
        caption="Units"
        rows={unitsInOrder(units)}
        rowKey={({ unit }) => unit.id}
        columns={[
          {
            head: 'Unit',
            cell: ({ unit, depth }) => (
              <span className="unit-name" data-unit={unit.id} data-drag={drag.stateOf(unit)}>
                {INDENT.repeat(depth)}
                <span
                  className={sistersOf(units, unit).length > 1 ? 'unit-handle' : 'unit-handle unit-handle-alone'}
                  aria-hidden="true"
                  title="Drag to another place"
                  {...drag.handle(unit)}
                >
                  ⠿
                </span>
                <Link href={addressTo(paths.people, { unitId: unit.id })}>
                  <b>{unit.name}</b>
                </Link>
                {unit.closedFrom && <span className="muted">, {formatClosed(unit.closedFrom, today)}</span>}
              </span>
            ),
            facts: [
              { head: 'Unit', of: ({ unit }) => unit.name },
              { head: 'Closed from', of: ({ unit }) => unit.closedFrom ?? '' },
              { head: 'Part of', of: ({ unit }) => units.find(({ id }) => id === unit.parentId)?.name ?? '' },
            ],
          },
          { head: 'Level', tight: true, cell: ({ unit }) => capital(levelOf(levels, unit.kind).one) },
          {
            head: 'Time zone',
            cell: ({ unit }) => (unit.timeZone === null ? <span className="muted">{unit.zone}</span> : unit.zone),
          },
          {
            head: 'What to do',
            bare: true,
            facts: [],
            cell: ({ unit }) => (
              <Acts
                unit={unit}
                place={placeOf(units, unit)}
                of={sistersOf(units, unit).length}
                onOpen={onOpen}
                onPut={(place, way) => {
                  keep(unit, way)
                  put(unit, place)
                }}
              />
            ),
          },
        ]}
      />
      <p role="status" className="out-of-sight">
        {said}
      </p>
      {error && <Failure error={error} />}
    </div>
  )
}

const placeOf = (units: readonly Unit[], unit: Unit): number =>
  sistersOf(units, unit).findIndex(({ id }) => id === unit.id)

type Way = 'up' | 'down'

/** Alt and an arrow key move the unit in whose row the focus is; the focus goes with it. */
function useKeys(units: readonly Unit[], put: (unit: Unit, place: number) => void) {
  const kept = useRef<string | null>(null)
  useEffect(() => {
    if (kept.current === null || units.length === 0) return
    const button = document.querySelector<HTMLElement>(`[data-act="${kept.current}"]`)
    kept.current = null
    button?.focus()
  }, [units])
  const keep = (unit: Unit, act: string) => {
    kept.current = `${unit.id} ${act}`
  }
  const onKeyDown = (event: React.KeyboardEvent) => {
    if (!event.altKey || (event.key !== 'ArrowUp' && event.key !== 'ArrowDown')) return
    const [id, act] = (event.target as HTMLElement).getAttribute('data-act')?.split(' ') ?? []
    const unit = units.find((one) => one.id === id)
    if (!unit || !act) return
    event.preventDefault()
    keep(unit, act)
    put(unit, placeOf(units, unit) + (event.key === 'ArrowUp' ? -1 : 1))
  }
  return { keep, onKeyDown }
}

interface ActsProps {
  unit: Unit
  /** Among so many sisters, from 0. */
  place: number
  of: number
  onOpen: (open: Open) => void
  onPut: (place: number, way: Way) => void
}

function Acts({ unit, place, of, onOpen, onPut }: ActsProps) {
  const act = (name: string, label: string, onClick: () => void, disabled = false) => (
    <Button
      kind="quiet"
      data-act={`${unit.id} ${name}`}
      aria-label={label}
      aria-disabled={disabled || undefined}
      onClick={() => !disabled && onClick()}
    >
      {label.replace(unit.name, '').trim()}
    </Button>
  )
  const isOpen = unit.closedFrom === null
  return (
    <span className="unit-acts">
      {isOpen && act('add', `Add below ${unit.name}`, () => onOpen({ to: 'add', below: unit.id }))}
      {act('change', `Change ${unit.name}`, () => onOpen({ to: 'change', unit }))}
      {isOpen && act('move', `Move ${unit.name}`, () => onOpen({ to: 'move', unit }))}
      {act('remove', `Take out ${unit.name}`, () => onOpen({ to: 'remove', unit }))}
      {of > 1 && (
        <span className="unit-order">
          {act('up', `${unit.name} Up`, () => onPut(place - 1, 'up'), place === 0)}
          {act('down', `${unit.name} Down`, () => onPut(place + 1, 'down'), place === of - 1)}
        </span>
      )}
    </span>
  )
}
