import { useQuery, useQueryClient } from '@tanstack/react-query'
import { useRef, useState } from 'react'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import { levelsQuery } from '../../../api/soldiers/levels.ts'
import { removeUnit, unitsQuery } from '../../../api/soldiers/units.ts'
import { formatTree } from '../../../domain/soldiers/levels.ts'
import { timeZoneOf } from '../../../domain/soldiers/unit-tree.ts'
import { Button } from '../../../ui/button.tsx'
import { ConfirmDialog } from '../../../ui/confirm-dialog.tsx'
import { Page } from '../../../ui/page.tsx'
import { Section } from '../../../ui/section.tsx'
import { today as todayIn } from '../../../words/today.ts'
import { formatLevels, LevelsForm } from './levels-form.tsx'
import { MoveForm } from './move-form.tsx'
import { UnitForm } from './unit-form.tsx'
import { type Open, UnitRows } from './unit-rows.tsx'
import '../people.css'
import './units.css'

type Opened = Open | { to: 'levels' }

/** The tree of units: made, renamed, put in order, moved, closed, and taken out again where one was a slip. */
export default function UnitsPage() {
  const client = useQueryClient()
  const query = useQuery(unitsQuery)
  const said = useQuery(levelsQuery)
  const [open, setOpen] = useState<Opened | null>(null)
  const units = query.data
  const levels = said.data?.levels
  const today = todayIn(timeZoneOf(units ?? []))
  const opener = useRef(document.activeElement)
  const show = (next: Opened) => {
    opener.current = document.activeElement
    setOpen(next)
  }
  // The next one is often made where the last one was.
  const close = () => {
    setOpen(null)
    if (opener.current instanceof HTMLElement) opener.current.focus()
  }
  return (
    <Page
      title="Units"
      answer={
        units &&
        levels &&
        formatTree(
          levels,
          units.filter(({ closedFrom }) => closedFrom === null || closedFrom > today),
        )
      }
      why="People, ceremonies and accounts belong to one of them, and whoever leads a unit sees those below it, too."
      error={units && levels ? null : (query.error ?? said.error)}
      onRetry={() => Promise.all([query.refetch(), said.refetch()])}
      controls={
        <>
          <Button kind="main" onClick={() => show({ to: 'add', below: onlyTop(units) })}>
            Add a unit
          </Button>
          <Button onClick={() => show({ to: 'levels' })}>What levels are called</Button>
        </>
      }
    >
      {said.data && units && open?.to === 'levels' && (
        <Section
          title="What levels are called"
          note={said.data.isOwn ? formatLevels(said.data) : 'nobody has said yet'}
        >
          <LevelsForm key={said.data.version} said={said.data} units={units} onDone={close} />
        </Section>
      )}
      {units && levels && open?.to === 'add' && (
        <Section title="Add a unit">
          <UnitForm key={open.below} units={units} levels={levels} below={open.below} onDone={close} />
        </Section>
      )}
      {units && levels && open?.to === 'change' && (
        <Section title={`Change ${open.unit.name}`}>
          <UnitForm key={open.unit.id} units={units} levels={levels} unit={open.unit} onDone={close} />
        </Section>
      )}
      {units && open?.to === 'move' && (
        <Section title={`Move ${open.unit.name}`}>
          <MoveForm key={open.unit.id} units={units} unit={open.unit} today={today} onDone={close} />
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
        <Section
          title="The tree"
          note="put them in your own order: drag one up or down within its level, or use Up and Down"
        >
          <UnitRows units={units} levels={levels} today={today} onOpen={show} />
        </Section>
      )}
    </Page>
  )
}

const onlyTop = (units: readonly Unit[] = []): string | null => {
  const tops = units.filter(({ parentId }) => parentId === null)
  return tops.length === 1 ? tops[0]!.id : null
}
