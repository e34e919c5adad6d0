import { useQuery } from '@tanstack/react-query'
import { dayInZone } from '#calendar/day-in-zone.ts'
import type { AmendmentProposal } from '#contract/sheets/amendments.ts'
import { sheetQuery } from '../../../api/sheets/sheets.ts'
import { standardsQuery } from '../../../api/standards/standards.ts'
import { measureTitle } from '../../../domain/standards/titles.ts'
import { formatDay } from '../../../words/format-day.ts'
import { formatTime } from '../../../words/format-time.ts'
import { today as todayIn } from '../../../words/today.ts'
import { unitZone } from '../../../words/unit-zone.ts'
import { formatChanges } from './format-changes.ts'

/** What a proposed amendment would change on its sheet, as it stands and as it would. */
export function Changes({ proposal }: { proposal: AmendmentProposal }) {
  const people = useQuery(sheetQuery(proposal.sheetId)).data?.people
  const standards = useQuery(standardsQuery).data ?? []
  const today = todayIn(null)
  const changes = formatChanges(proposal.before, proposal.body, {
    measure: (code) => measureTitle(standards, proposal.before.standard, code),
    person: (id) => people?.[id] ?? 'somebody else',
    moment: (at) => `${formatDay(dayInZone(at, unitZone()), today)}, ${formatTime(at, null)}`,
  })
  return (
    <dl className="contested-changes">
      {changes.map(({ what, before, after }) => (
        <div key={what}>
          <dt>{what}</dt>
          <dd>
            <bdi>{before}</bdi> becomes <bdi>{after}</bdi>
          </dd>
        </div>
      ))}
    </dl>
  )
}
