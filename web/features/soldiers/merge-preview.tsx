import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import { mergePreviewQuery, mergeSoldiers } from '../../api/soldiers/people.ts'
import { listName, shortName } from '../../domain/soldiers/format-person.ts'
import { fullUnitName } from '../../domain/soldiers/unit-tree.ts'
import { addressTo, paths } from '../../paths.ts'
import { Failure } from '../../ui/failure.tsx'
import { Notice } from '../../ui/notice.tsx'
import { ReasonedForm } from '../../ui/reasoned-form.tsx'
import { formatDay } from '../../words/format-day.ts'
import { counted, plural } from '../../words/format-number.ts'
import { formatDays } from './format-people.ts'

interface MergePreviewProps {
  keptId: string
  awayId: string
  units: readonly Unit[]
  today: string
  onDone: (said: string) => Promise<unknown>
}

/** What the merge would do, or why it cannot be; then the button. */
export function MergePreview({ keptId, awayId, units, today, onDone }: MergePreviewProps) {
  const query = useQuery(mergePreviewQuery(keptId, awayId))
  if (query.error) return <Failure error={query.error} onRetry={query.refetch} />
  if (!query.data) return <p aria-busy="true">Working out what would happen…</p>
  const { kept, away, obstacles, moves, putAside, periods, sameTimes, judged } = query.data
  if (obstacles.length > 0) {
    return (
      <Notice kind="bad">
        <p>
          {shortName(away)} cannot be merged into {shortName(kept)}:
        </p>
        <ul>
          {obstacles.map(({ rule, detail }) => (
            <li key={rule}>{detail}</li>
          ))}
        </ul>
      </Notice>
    )
  }
  const changed = judged.reduce((sum, { count }) => sum + count, 0)
  return (
    <div className="people-facts">
      <p>
        <b>
          {away.rosterNumber} <bdi>{listName(away)}</bdi>
        </b>{' '}
        is closed; everything of it is {kept.rosterNumber} <bdi>{listName(kept)}</bdi> from then on.
      </p>
      <ul>
        {moves.length === 0 && <li>Nothing but the name belongs to the other entry.</li>}
        {moves.map(({ what, count }) => (
          <li key={what}>
            Moved: {what} ({count})
          </li>
        ))}
        {putAside.map(({ what, count }) => (
          <li key={what}>
            Left aside, since this entry has it already: {what} ({count})
          </li>
        ))}
        <li>
          {changed === 0
            ? 'No sheet would be judged differently.'
            : `${counted(changed, 'sheet')} ${plural(changed, 'comes', 'come')} to be judged differently.`}
        </li>
        {sameTimes.map(({ standard, day, sheetId, otherId }) => (
          <li key={sheetId + otherId}>
            Both have a test of {standard} at the same time on {formatDay(day, today)}:{' '}
            <Link href={addressTo(paths.sheet, { id: sheetId })}>one</Link> and{' '}
            <Link href={addressTo(paths.sheet, { id: otherId })}>the other</Link>. If it is the same test, reject one of
            the two afterwards.
          </li>
        ))}
      </ul>
      <p>On strength afterwards:</p>
      <ul>
        {periods.map(({ from, through, unitId, grade }) => (
          <li key={from}>
            {formatDays(from, through, today)}: {grade}, {fullUnitName(units, unitId)}
          </li>
        ))}
      </ul>
      <ReasonedForm
        label="How is it known that they are one?"
        choices={[{ value: 'merge', text: 'Merge the two entries' }]}
        onChoose={async (_, reason) => {
          await mergeSoldiers(keptId, awayId, reason)
          await onDone('The two entries are one now. This can be undone below.')
        }}
      />
    </div>
  )
}
