import { useInfiniteQuery, useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { Link } from 'wouter'
import type { SheetSummary } from '#contract/sheets/sheets.ts'
import { addReview, retestsQuery } from '../../../api/readiness/retests.ts'
import { sheetsQuery } from '../../../api/sheets/sheets.ts'
import { soldierQuery } from '../../../api/soldiers/soldiers.ts'
import { unitsQuery } from '../../../api/soldiers/units.ts'
import { standardsQuery } from '../../../api/standards/standards.ts'
import { useMay } from '../../../api/use-may.ts'
import { fullUnitName, timeZoneOf } from '../../../domain/soldiers/unit-tree.ts'
import { measureTitle, standardTitle } from '../../../domain/standards/titles.ts'
import { addressTo, paths } from '../../../paths.ts'
import { Button } from '../../../ui/button.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { TextField } from '../../../ui/field.tsx'
import { Notice } from '../../../ui/notice.tsx'
import { Page } from '../../../ui/page.tsx'
import { Section } from '../../../ui/section.tsx'
import { Table } from '../../../ui/table.tsx'
import { formatDayWithYear } from '../../../words/format-day.ts'
import { counted } from '../../../words/format-number.ts'
import { today as todayIn } from '../../../words/today.ts'
import './review.css'

const ATTEMPTS_AT_ONCE = 100

/** A counselling sheet for a review after repeated NO-GOs: the facts, room to write, lines to sign; and recording it. */
export default function ReviewPage({ soldierId, standard }: { soldierId: string; standard: string }) {
  const soldier = useQuery(soldierQuery(soldierId))
  const sheets = useInfiniteQuery(sheetsQuery({ soldierId }, ATTEMPTS_AT_ONCE))
  const retests = useQuery(retestsQuery({ soldierId }))
  const standards = useQuery(standardsQuery).data ?? []
  const units = useQuery(unitsQuery).data ?? []
  const mayRecord = useMay('plan-test-days')
  const today = todayIn(timeZoneOf(units))
  const person = soldier.data
  const open = retests.data?.find((one) => one.standard === standard)
  const attempts = sheets.data?.pages
    .flatMap(({ items }) => items)
    .filter(({ body, state }) => body.standard === standard && body.purpose === 'test' && state !== 'rejected')
  const title = standardTitle(standards, standard)
  return (
    <Page
      title="Counselling sheet"
      answer={person && `Review of ${person.grade} ${person.familyName}: ${title}`}
      why={
        person &&
        `${person.rosterNumber} · ${fullUnitName(units, person.unitId)}${open ? ` · ${counted(open.noGosInARow, 'NO-GO')} in a row, retest due by ${formatDayWithYear(open.due)}` : ''}`
      }
      error={person ? null : soldier.error}
      onRetry={soldier.refetch}
      controls={<Button onClick={() => window.print()}>Print</Button>}
    >
      <Section title="Attempts">
        {attempts && (
          <Table
            caption="Attempts"
            rows={attempts}
            rowKey={({ id }) => id}
            columns={[
              {
                head: 'Day',
                tight: true,
                cell: ({ id, day }) => <Link href={addressTo(paths.sheet, { id })}>{formatDayWithYear(day)}</Link>,
              },
              { head: 'Outcome', bare: true, cell: ({ result }) => <b>{result.outcome}</b> },
              { head: 'State', bare: true, cell: ({ state }) => (state === 'held' ? 'held' : 'counts') },
              {
                head: 'NO-GO in',
                cell: (sheet) =>
                  failedMeasures(sheet)
                    .map((code) => measureTitle(standards, standard, code))
                    .join(', ') || 'nothing',
              },
            ]}
          />
        )}
      </Section>
      <Section title="What was talked about">
        <div className="write-room">
          <p>What fails, and why</p>
          <p>What will be drilled, with whom, until when</p>
          <p>What the candidate says</p>
        </div>
        <p className="small">
          This is a training record, not a medical or disciplinary finding. Unit procedure, the safety officer and
          licensed medical staff come before anything on this sheet.
        </p>
        <div className="sign-lines">
          <p>Candidate, date</p>
          <p>Sponsor, date</p>
          <p>Reviewed by, date</p>
        </div>
      </Section>
      {mayRecord && (
        <Section title="Record the review" className="no-print">
          {open && !open.needsReview && <Notice>This retest does not wait for a review (any more).</Notice>}
          <ReviewForm soldierId={soldierId} standard={standard} today={today} />
        </Section>
      )}
    </Page>
  )
}

/** Codes of the majors and minors that are NO-GO on a sheet. */
const failedMeasures = ({ body, result }: SheetSummary): string[] => [
  ...body.majors.filter(({ mark }) => mark === 'NO-GO').map(({ code }) => code),
  ...result.minors.filter(({ outcome }) => outcome === 'NO-GO').map(({ code }) => code),
]

function ReviewForm({ soldierId, standard, today }: { soldierId: string; standard: string; today: string }) {
  const client = useQueryClient()
  const [note, setNote] = useState('')
  const record = useMutation({
    mutationFn: () => addReview(soldierId, { standard, on: today, note: note.trim() }),
    onSuccess: () => client.invalidateQueries(),
  })
  if (record.isSuccess) return <Notice kind="good">The review of today is recorded; the retest can be booked.</Notice>
  return (
    <form
      className="review-form"
      onSubmit={(event) => {
        event.preventDefault()
        record.mutate()
      }}
    >
      <TextField
        label="What was agreed"
        hint="About training only; nothing medical or disciplinary."
        required
        maxLength={4000}
        value={note}
        onChange={(event) => setNote(event.target.value)}
      />
      <Button type="submit" kind="main" disabled={record.isPending || note.trim() === ''}>
        Record it
      </Button>
      {record.error && <Failure error={record.error} />}
    </form>
  )
}
