import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import type { CertificateRecord } from '#contract/soldiers/extracts.ts'
import { ApiError } from '../../../api/errors.ts'
import { certificateRecordQuery } from '../../../api/soldiers/extracts.ts'
import { listName } from '../../../domain/soldiers/format-person.ts'
import { dayFact, fact } from '../../../parts/readiness/facts.ts'
import { addressTo, paths } from '../../../paths.ts'
import { TextField } from '../../../ui/field.tsx'
import { Page } from '../../../ui/page.tsx'
import { Table } from '../../../ui/table.tsx'
import { useFilters } from '../../../ui/use-filters.ts'
import { formatDayWithYear } from '../../../words/format-day.ts'

const NUMBER = /^[\da-f]{8}(-[\da-f]{4}){3}-[\da-f]{12}$/

/** Whether a certificate that somebody shows is still in force. */
export default function CertificatesPage() {
  const [filters, setFilters] = useFilters(['number'])
  const number = filters.number.trim().toLowerCase()
  const isWhole = NUMBER.test(number)
  const { data, error, refetch } = useQuery(certificateRecordQuery(isWhole ? number : ''))
  const isUnknown = error instanceof ApiError && error.status === 404
  const items = isWhole ? (isUnknown ? [] : data?.items) : undefined
  return (
    <Page
      title="Certificates"
      answer={isWhole ? items && formatFound(items) : 'Is a certificate still in force?'}
      why="Enter the record number that stands on it; the status shown is today’s."
      error={isWhole && !items ? error : null}
      onRetry={refetch}
      controls={
        <TextField
          label="Record number"
          value={filters.number}
          onChange={(event) => setFilters({ number: event.target.value })}
          autoComplete="off"
          spellCheck={false}
        />
      }
    >
      {number !== '' && !isWhole && (
        <p>A record number has 32 letters a to f and digits, in five groups with dashes.</p>
      )}
      {items && items.length > 0 && (
        <Table<CertificateRecord>
          caption="Awards of this number"
          rows={items}
          rowKey={({ certification }) => certification}
          columns={[
            {
              head: 'Soldier',
              facts: [
                fact('Grade', ({ soldier }) => soldier.grade),
                fact('Name', ({ soldier }) => `${soldier.familyName}, ${soldier.givenName}`),
              ],
              cell: ({ soldier }) => (
                <Link href={addressTo(paths.candidate, { id: soldier.id })}>
                  <bdi>{listName(soldier)}</bdi>
                </Link>
              ),
            },
            { head: 'Certification', cell: ({ title }) => title },
            {
              head: 'Awarded',
              facts: [dayFact('Awarded', ({ awardedOn }) => awardedOn)],
              tight: true,
              cell: ({ awardedOn }) => formatDayWithYear(awardedOn),
            },
            {
              head: 'Valid through',
              facts: [dayFact('Valid through', ({ validThrough }) => validThrough)],
              tight: true,
              cell: ({ validThrough }) => formatDayWithYear(validThrough),
            },
            { head: 'Today', tight: true, cell: ({ status }) => status?.status ?? 'not held' },
          ]}
        />
      )}
    </Page>
  )
}

function formatFound(items: readonly CertificateRecord[]): string {
  const [first] = items
  if (first === undefined) return 'There is no award with this number.'
  const stands = items.some(({ status, validThrough, asOf }) => status?.status === 'certified' && asOf <= validThrough)
  return stands ? 'It is in force today.' : 'It is on record, and not in force today.'
}
