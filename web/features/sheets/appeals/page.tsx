import { useQuery, useQueryClient } from '@tanstack/react-query'
import { dayInZone } from '#calendar/day-in-zone.ts'
import { sessionQuery } from '../../../api/accounts/session.ts'
import { decideAmendment, decideAppeal, openAmendmentsQuery, openAppealsQuery } from '../../../api/sheets/appeals.ts'
import { invalidateSheets } from '../../../api/sheets/sheets.ts'
import { useMay } from '../../../api/use-may.ts'
import { FilledBy } from '../../../parts/first-steps/filled-by.tsx'
import { Empty } from '../../../ui/empty.tsx'
import { Page } from '../../../ui/page.tsx'
import { ReasonedForm } from '../../../ui/reasoned-form.tsx'
import { Section } from '../../../ui/section.tsx'
import { formatDay } from '../../../words/format-day.ts'
import { capital, inWords, plural } from '../../../words/format-number.ts'
import { today as todayIn } from '../../../words/today.ts'
import { unitZone } from '../../../words/unit-zone.ts'
import { Changes } from './changes.tsx'
import { WhoseSheet } from './whose-sheet.tsx'
import './contested.css'

/** Amendments that would change what counts, and appeals: what a second person decides. */
export default function ContestedPage() {
  const amendments = useQuery(openAmendmentsQuery)
  const mayAnswer = useMay('decide-sheets')
  const appeals = useQuery({ ...openAppealsQuery, enabled: mayAnswer })
  const me = useQuery(sessionQuery).data?.name
  const client = useQueryClient()
  const today = todayIn(null)
  const on = (at: string) => formatDay(dayInZone(at, unitZone()), today)
  const settled = (work: Promise<unknown>) => work.then(() => invalidateSheets(client))
  const known = amendments.data && (!mayAnswer || appeals.data)
  return (
    <Page
      title={mayAnswer ? 'Amendments and appeals' : 'Amendments'}
      answer={known && formatContested(amendments.data.length, appeals.data?.length ?? 0)}
      why="A change to what counts takes effect when a second person confirms it: one of the office or a commander of the unit, but nobody who entered or amended the sheet, or who graded, sponsored or took the test."
      error={known ? null : (amendments.error ?? appeals.error)}
      onRetry={() => Promise.all([amendments.refetch(), appeals.refetch()])}
    >
      {amendments.data && (
        <Section title="Proposed amendments" note="the oldest first">
          {amendments.data.length === 0 && (
            <Empty>
              <p>No amendment waits. Those that would change what counts show here.</p>
              <FilledBy steps={['test-days']} />
            </Empty>
          )}
          {amendments.data.map((proposal) => (
            <article key={proposal.id} className="contested">
              <WhoseSheet
                sheetId={proposal.sheetId}
                asked={formatOutcomeChange(proposal.outcomeBefore, proposal.outcomeAfter)}
                today={today}
              />
              <Changes proposal={proposal} />
              <p>
                <bdi>{proposal.reason}</bdi>
              </p>
              <p className="muted small">
                Proposed by <bdi>{proposal.proposedBy}</bdi>, {on(proposal.proposedAt)}
              </p>
              {proposal.proposedBy === me ? (
                <p>You proposed it, so somebody else confirms or refuses it.</p>
              ) : (
                <ReasonedForm
                  label="Reason, kept with the sheet"
                  choices={[
                    { value: 'confirm', text: 'Confirm it' },
                    { value: 'refuse', text: 'Refuse it' },
                  ]}
                  onChoose={(decision, reason) => settled(decideAmendment(proposal.id, decision, reason))}
                />
              )}
            </article>
          ))}
        </Section>
      )}
      {mayAnswer && appeals.data && (
        <Section title="Appeals" note="the oldest first">
          {appeals.data.length === 0 && (
            <Empty>
              <p>No appeal is open. Candidates and sponsors contest a sheet on its page.</p>
              <FilledBy steps={['test-days']} />
            </Empty>
          )}
          {appeals.data.map((appeal) => (
            <article key={appeal.id} className="contested">
              <WhoseSheet sheetId={appeal.sheetId} asked="contested" today={today} />
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

/** The answer of the page: what waits for a second person. */
const formatContested = (amendments: number, appeals: number): string => {
  if (amendments + appeals === 0) return 'Nothing waits for a second person.'
  const parts = [
    amendments > 0 ? `${inWords(amendments)} ${plural(amendments, 'amendment', 'amendments')}` : '',
    appeals > 0 ? `${inWords(appeals)} ${plural(appeals, 'appeal', 'appeals')}` : '',
  ].filter(Boolean)
  return `${capital(parts.join(' and '))} ${amendments + appeals === 1 ? 'waits' : 'wait'} for a second person.`
}

/** "NO-GO becomes GO". */
const formatOutcomeChange = (before: string, after: string): string =>
  before === after ? `stays ${after}` : `${before} becomes ${after}`
