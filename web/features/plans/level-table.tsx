import type { z } from 'zod'
import type { PlanLevel } from '#contract/plans/plans.ts'
import { sayBound, sayLevel, sayLevelValue } from '../../domain/plans/say-plan.ts'
import { Table } from '../../ui/table.tsx'

type Level = z.infer<typeof PlanLevel>

/** What a plan came to, and how much better it could be at best. */
export function LevelTable({ levels }: { levels: readonly Level[] }) {
  return (
    <Table<Level>
      caption="How good the plan is"
      rows={levels}
      rowKey={({ name }) => name}
      columns={[
        { head: 'What counts', cell: sayLevel },
        { head: 'This plan', numeric: true, cell: sayLevelValue },
        { head: 'Could it be better?', cell: sayBound },
      ]}
    />
  )
}
