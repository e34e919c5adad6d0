import type { z } from 'zod'
import type { PlanLevel } from '#contract/plans/plans.ts'
import { formatBound, formatLevel, formatLevelValue } from '../../domain/plans/format-plan.ts'
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
        { head: 'What counts', cell: formatLevel },
        { head: 'This plan', numeric: true, cell: formatLevelValue },
        { head: 'Could it be better?', cell: formatBound },
      ]}
    />
  )
}
