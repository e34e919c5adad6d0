import { useInfiniteQuery } from '@tanstack/react-query'
import { useDeferredValue, useState } from 'react'
import { Link } from 'wouter'
import { MOST_AT_ONCE } from '#contract/accounts/most-at-once.ts'
import type { SoldierWithout } from '#contract/accounts/several.ts'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import { withoutAccountQuery } from '../../../api/accounts/several.ts'
import { FilledBy } from '../../../parts/first-steps/filled-by.tsx'
import { UnitOptions } from '../../../parts/soldiers/unit-options.tsx'
import { paths } from '../../../paths.ts'
import { Button } from '../../../ui/button.tsx'
import { Empty } from '../../../ui/empty.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { SelectField, TextField } from '../../../ui/field.tsx'
import { More } from '../../../ui/more.tsx'
import { Section } from '../../../ui/section.tsx'
import { useFilters } from '../../../ui/use-filters.ts'
import { ChooseTable, NEEDS } from './choose-table.tsx'

type Chosen = ReadonlyMap<string, SoldierWithout>

interface ChoosePartProps {
  units: readonly Unit[]
  chosen: Chosen
  onChosen: (chosen: Chosen) => void
  busy: boolean
  onNext: () => void
}

const isNeed = (text: string | undefined): text is keyof typeof NEEDS => text !== undefined && text in NEEDS

/**
 * Who on the roster has no account, to be ticked; the choice is kept while the filters change. What is typed stays out of the
 * address: names do not belong there.
 */
export function ChoosePart({ units, chosen, onChosen, busy, onNext }: ChoosePartProps) {
  const [filters, setFilters] = useFilters(['unitId', 'need'])
  const need = isNeed(filters.need) ? filters.need : undefined
  const [typed, setTyped] = useState('')
  const q = useDeferredValue(typed.trim()) || undefined
  const pages = useInfiniteQuery(withoutAccountQuery({ unitId: filters.unitId || undefined, need, q }))
  const listed = pages.data?.pages.flatMap(({ items }) => items) ?? []
  const isFiltered = Boolean(filters.unitId || need || q)
  const missing = listed.filter(({ id }) => !chosen.has(id))
  const choose = (soldiers: readonly SoldierWithout[]) =>
    onChosen(new Map([...chosen, ...soldiers.map((one) => [one.id, one] as const)]))
  const toggle = (soldier: SoldierWithout) =>
    chosen.has(soldier.id) ? onChosen(new Map([...chosen].filter(([id]) => id !== soldier.id))) : choose([soldier])
  return (
    <Section title="Without an account">
      <div className="several-controls">
        <TextField
          label="Number, name or grade"
          type="search"
          autoComplete="off"
          spellCheck={false}
          value={typed}
          onChange={(event) => setTyped(event.target.value)}
        />
        <SelectField
          label="Unit"
          value={filters.unitId}
          onChange={(event) => setFilters({ unitId: event.target.value })}
        >
          <option value="">All units</option>
          <UnitOptions units={units} />
        </SelectField>
        <SelectField
          label="Needs it as"
          value={need ?? ''}
          onChange={(event) => setFilters({ need: event.target.value })}
        >
          <option value="">Anybody</option>
          <option value="sponsor">Sponsor</option>
          <option value="grader">Grader</option>
        </SelectField>
        <Button disabled={missing.length === 0} onClick={() => choose(missing)}>
          Choose all listed
        </Button>
        <Button disabled={chosen.size === 0} onClick={() => onChosen(new Map())}>
          Choose nobody
        </Button>
        <Button kind="main" disabled={chosen.size === 0 || chosen.size > MOST_AT_ONCE || busy} onClick={onNext}>
          Propose names
        </Button>
      </div>
      {chosen.size > MOST_AT_ONCE && (
        <p role="alert" className="field-note">
          At most {MOST_AT_ONCE} are made at once. Choose fewer, and make the others afterwards.
        </p>
      )}
      {pages.error && !pages.data && <Failure error={pages.error} onRetry={pages.refetch} />}
      {pages.data && listed.length === 0 && (
        <Empty>
          <p>
            {isFiltered
              ? 'Nobody fits who has no account. Look for something else.'
              : 'Everybody on the roster has an account, or nobody is on it yet.'}{' '}
            <Link href={paths.accounts}>All accounts</Link>
          </p>
          {!isFiltered && <FilledBy steps={['roster']} />}
        </Empty>
      )}
      {listed.length > 0 && (
        <ChooseTable units={units} listed={listed} pages={pages} chosen={chosen} onToggle={toggle} />
      )}
      <More hasMore={pages.hasNextPage} loading={pages.isFetchingNextPage} onMore={pages.fetchNextPage}>
        Show more soldiers
      </More>
    </Section>
  )
}
