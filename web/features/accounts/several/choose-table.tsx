import type { SoldierWithout } from '#contract/accounts/several.ts'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import { fullUnitName } from '../../../domain/soldiers/unit-tree.ts'
import { ListKeys } from '../../../ui/list-keys.tsx'
import { Table } from '../../../ui/table.tsx'
import type { Pages } from '../../../ui/table-files.tsx'
import { useOneStop } from '../../../ui/use-one-stop.ts'

interface ChooseTableProps {
  units: readonly Unit[]
  listed: readonly SoldierWithout[]
  /** The whole list, for the file. */
  pages: Pages
  chosen: ReadonlyMap<string, SoldierWithout>
  onToggle: (soldier: SoldierWithout) => void
}

/** For what somebody needs an account, in words. */
export const NEEDS = { sponsor: 'Named as a sponsor', grader: 'Appointed as a grader' } as const

/** Soldiers without an account, to be ticked; the whole list is one stop of the Tab key. */
export function ChooseTable({ units, listed, pages, chosen, onToggle }: ChooseTableProps) {
  const { list, thing } = useOneStop(listed.map(({ id }) => id))
  return (
    <div {...list}>
      <ListKeys
        id="several-keys"
        more={
          <>
            <kbd>Space</kbd> chooses.
          </>
        }
      />
      <Table<SoldierWithout>
        caption="Soldiers without an account"
        pages={pages}
        rows={listed}
        rowKey={({ id }) => id}
        columns={[
          {
            head: 'Soldier',
            facts: [{ head: 'Soldier', of: ({ soldier }) => soldier }],
            cell: (one) => (
              <label className="tick several-tick">
                <input
                  type="checkbox"
                  aria-describedby="several-keys"
                  checked={chosen.has(one.id)}
                  onChange={() => onToggle(one)}
                  {...thing(one.id)}
                />
                <bdi>{one.soldier}</bdi>
              </label>
            ),
          },
          { head: 'Grade', cell: ({ grade }) => <bdi>{grade}</bdi>, tight: true },
          { head: 'Unit', cell: ({ unitId }) => <bdi>{fullUnitName(units, unitId)}</bdi> },
          {
            head: 'Needs it as',
            cell: ({ isSponsor, isGrader }) =>
              [isGrader ? NEEDS.grader : '', isSponsor ? NEEDS.sponsor : ''].filter(Boolean).join(', '),
          },
        ]}
      />
    </div>
  )
}
