import { useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { Link } from 'wouter'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import { removeUnit, unitsQuery } from '../../../api/soldiers/units.ts'
import { timeZoneOf, unitsInOrder } from '../../../domain/soldiers/unit-tree.ts'
import { addressTo, paths } from '../../../paths.ts'
import { Button } from '../../../ui/button.tsx'
import { ConfirmDialog } from '../../../ui/confirm-dialog.tsx'
import { Page } from '../../../ui/page.tsx'
import { Section } from '../../../ui/section.tsx'
import { Table } from '../../../ui/table.tsx'
import { today as todayIn } from '../../../words/today.ts'
import { formatClosed, formatUnits, LEVELS } from './format-units.ts'
import { UnitForm } from './unit-form.tsx'
import '../people.css'

const INDENT = '\u2003'

type Open = { to: 'add'; below: string | null } | { to: 'change' | 'remove'; unit: Unit }

/** The tree of units: made, renamed, closed, and taken out again where one was a slip. */
export default function UnitsPage() {
  const client = useQueryClient()
  const query = useQuery(unitsQuery)
  const [open, setOpen] = useState<Open | null>(null)
  const units = query.data
  const today = todayIn(timeZoneOf(units ?? []))
  const close = () => setOpen(null)
  return (
    <Page
      title="Units"
      answer={units && formatUnits(units)}
      why="People, ceremonies and accounts belong to one of them, and whoever leads a unit sees those below it, too."
      error={units ? null : query.error}
      onRetry={query.refetch}
      controls={
        <Button kind="main" onClick={() => setOpen({ to: 'add', below: onlyTop(units) })}>
          Add a unit
        </Button>
      }
    >
      {units && open?.to === 'add' && (
        <Section title="Add a unit">
          <UnitForm key={open.below} units={units} below={open.below} onDone={close} />
        </Section>
      )}
      {units && open?.to === 'change' && (
        <Section title={`Change ${open.unit.name}`}>
          <UnitForm key={open.unit.id} units={units} unit={open.unit} onDone={close} />
        </Section>
      )}
      {open?.to === 'remove' && (
        <ConfirmDialog
          title={`Take out ${open.unit.name}?`}
          confirm="Take it out"
          onClose={close}
          onConfirm={async () => {
            await removeUnit(open.unit.id)
            await client.invalidateQueries({ queryKey: unitsQuery.queryKey })
          }}
        >
          <p>Only a unit that nothing names can go: no people now or before, no unit below, no ceremony, no account.</p>
        </ConfirmDialog>
      )}
      {units && units.length > 0 && (
        <Section title="The tree" note="each unit before those below it">
          <Table
            caption="Units"
            rows={unitsInOrder(units)}
            rowKey={({ unit }) => unit.id}
            columns={[
              {
                head: 'Unit',
                cell: ({ unit, depth }) => (
                  <>
                    {INDENT.repeat(depth)}
                    <Link href={addressTo(paths.people, { unitId: unit.id })}>
                      <b>{unit.name}</b>
                    </Link>
                    {unit.closedFrom && <span className="muted">, {formatClosed(unit.closedFrom, today)}</span>}
                  </>
                ),
                facts: [
                  { head: 'Unit', of: ({ unit }) => unit.name },
                  { head: 'Closed from', of: ({ unit }) => unit.closedFrom ?? '' },
                  { head: 'Part of', of: ({ unit }) => units.find(({ id }) => id === unit.parentId)?.name ?? '' },
                ],
              },
              { head: 'Level', cell: ({ unit }) => LEVELS[unit.kind] },
              {
                head: 'Time zone',
                cell: ({ unit }) => (unit.timeZone === null ? <span className="muted">{unit.zone}</span> : unit.zone),
              },
              {
                head: 'What to do',
                bare: true,
                facts: [],
                cell: ({ unit }) => (
                  <span className="people-buttons">
                    <Button
                      kind="quiet"
                      aria-label={`Add below ${unit.name}`}
                      onClick={() => setOpen({ to: 'add', below: unit.id })}
                    >
                      Add below
                    </Button>
                    <Button
                      kind="quiet"
                      aria-label={`Change ${unit.name}`}
                      onClick={() => setOpen({ to: 'change', unit })}
                    >
                      Change
                    </Button>
                    <Button
                      kind="quiet"
                      aria-label={`Take out ${unit.name}`}
                      onClick={() => setOpen({ to: 'remove', unit })}
                    >
                      Take out
                    </Button>
                  </span>
                ),
              },
            ]}
          />
        </Section>
      )}
    </Page>
  )
}

const onlyTop = (units: readonly Unit[] = []): string | null => {
  const tops = units.filter(({ parentId }) => parentId === null)
  return tops.length === 1 ? tops[0]!.id : null
}
