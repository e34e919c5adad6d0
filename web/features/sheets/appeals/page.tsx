import { useQuery, useQueryClient } from '@tanstack/react-query'
import { Link } from 'wouter'
import { dayInZone } from '#calendar/day-in-zone.ts'
import { decideAmendment, decideAppeal, openAmendmentsQuery, openAppealsQuery } from '../../../api/sheets/appeals.ts'
import { forgetWhatSheetsChange } from '../../../api/sheets/sheets.ts'
import { Empty } from '../../../ui/empty.tsx'
import { Page } from '../../../ui/page.tsx'
import { ReasonedForm } from '../../../ui/reasoned-form.tsx'
import { Section } from '../../../ui/section.tsx'
import { sayDay } from '../../../words/say-day.ts'
import { deviceZone, today as todayIn } from '../../../words/today.ts'
import { sayContested, sayOutcomeChange } from './say-contested.ts'
import './contested.css'

/** Amendments that would change an outcome, and appeals: what another person of the office decides. */
export default function ContestedPage() {
  const amendments = useQuery(openAmendmentsQuery)
  const appeals = useQuery(openAppealsQuery)
  const client = useQueryClient()
  const today = todayIn(null)
  const on = (at: string) => sayDay(dayInZone(at, deviceZone()), today)
  const settled = (work: Promise<unknown>) => work.then(() => forgetWhatSheetsChange(client))
  const known = amendments.data && appeals.data
  return (
    <Page
      title="Amendments and appeals"
      answer={known && sayContested(amendments.data.length, appeals.data.length)}
      why="What changes an outcome takes effect when another person of the office confirms it: not who proposed it, nor who graded or sponsored the test."
      error={known ? null : (amendments.error ?? appeals.error)}
      onRetry={() => Promise.all([amendments.refetch(), appeals.refetch()])}
    >
      {amendments.data && (
        <Section title="Proposed amendments" note="the oldest first">
          {amendments.data.length === 0 && (
            <Empty>
              <p>No amendment waits. Those that would change an outcome show here.</p>
            </Empty>
          )}
          {amendments.data.map((proposal) => (
            <article key={proposal.id} className="contested">
              <h3>
                {sayOutcomeChange(proposal.outcomeBefore, proposal.outcomeAfter)}{' '}
                <Link href={`/sheets/${proposal.sheetId}`}>on this sheet</Link>
              </h3>
              <p>
                <bdi>{proposal.reason}</bdi>
              </p>
              <p className="muted small">
                Proposed by <bdi>{proposal.proposedBy}</bdi>, {on(proposal.proposedAt)}
              </p>
              <ReasonedForm
                label="Reason, kept with the sheet"
                choices={[
                  { value: 'confirm', text: 'Confirm it' },
                  { value: 'refuse', text: 'Refuse it' },
                ]}
                onChoose={(decision, reason) => settled(decideAmendment(proposal.id, decision, reason))}
              />
            </article>
          ))}
        </Section>
      )}
      {appeals.data && (
        <Section title="Appeals" note="the oldest first">
          {appeals.data.length === 0 && (
            <Empty>
              <p>No appeal is open. Candidates and sponsors contest a sheet on its page.</p>
            </Empty>
          )}
          {appeals.data.map((appeal) => (
            <article key={appeal.id} className="contested">
              <h3>
                <Link href={`/sheets/${appeal.sheetId}`}>This sheet is contested</Link>
              </h3>
              <p>
                <bdi>{appeal.reason}</bdi>
              </p>
              <p className="muted small">
                Appealed by <bdi>{appeal.appealedBy}</bdi>, {on(appeal.appealedAt)}. Amend the sheet after upholding it.
              </p>
              <ReasonedForm
                label="Reason, kept with the sheet"
                choices={[
                  { value: 'uphold', text: 'Uphold it' },
                  { value: 'dismiss', text: 'Dismiss it' },
                ]}
                onChoose={(decision, reason) => settled(decideAppeal(appeal.id, decision, reason))}
              />
            </article>
          ))}
        </Section>
      )}
    </Page>
  )
}
