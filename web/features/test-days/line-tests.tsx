import { Link } from 'wouter'
import type { Standard } from '#contract/standards/standards.ts'
import type { ClosedTest, RunningTest } from '#contract/test-days/running-tests.ts'
import { standardTitle } from '../../domain/standards/titles.ts'
import { fact, momentFact } from '../../parts/readiness/facts.ts'
import { addressTo, paths } from '../../paths.ts'
import { Table } from '../../ui/table.tsx'
import { formatTime } from '../../words/format-time.ts'

interface ListProps<Test> {
  tests: readonly Test[]
  standards: readonly Standard[]
  zone: string | null
}

const graderWords = ({ grader, secondOf }: { grader: string; secondOf: string | null }): string =>
  secondOf === null ? grader : `${grader}, second grader`

/** What runs now: the call, and the count where one may see it. */
export function RunningTests({ tests, standards, zone }: ListProps<RunningTest>) {
  return (
    <Table<RunningTest>
      caption="Tests that run now"
      rows={tests}
      rowKey={({ sheetId }) => sheetId}
      columns={[
        {
          head: 'Candidate',
          cell: ({ candidate }) => (
            <b>
              <bdi>{candidate}</bdi>
            </b>
          ),
        },
        { head: 'Standard', bare: true, cell: ({ standard }) => standardTitle(standards, standard) },
        { head: 'Grader', cell: (test) => <bdi>{graderWords(test)}</bdi> },
        {
          head: 'Since',
          facts: [momentFact('Since', ({ startedAt }) => startedAt)],
          tight: true,
          cell: ({ startedAt }) => formatTime(startedAt, zone),
        },
        {
          head: 'Stands at',
          facts: [
            fact('State', ({ state }) => state),
            fact('Calls done', ({ callsDone }) => callsDone),
            fact('Calls', ({ calls }) => calls),
          ],
          cell: ({ state, calls, callsDone }) =>
            `${state === 'ceased' ? 'ceased at' : 'call'} ${Math.min(callsDone + 1, calls)} of ${calls}`,
        },
        {
          head: 'So far',
          facts: [fact('GO', ({ go }) => go), fact('NO-GO', ({ noGo }) => noGo)],
          cell: ({ go, noGo }) => (go === null ? 'not shown to graders' : `${go} GO, ${noGo} NO-GO`),
        },
      ]}
    />
  )
}

/** Results as they closed. */
export function ClosedTests({ tests, standards, zone }: ListProps<ClosedTest>) {
  return (
    <Table<ClosedTest>
      caption="Tests that were closed"
      rows={tests}
      rowKey={({ sheetId }) => sheetId}
      columns={[
        {
          head: 'Candidate',
          cell: ({ candidate, sheetId }) => (
            <Link href={addressTo(paths.sheet, { id: sheetId })}>
              <b>
                <bdi>{candidate}</bdi>
              </b>
            </Link>
          ),
        },
        {
          head: 'Outcome',
          facts: [fact('Outcome', ({ outcome }) => outcome), fact('State', ({ state }) => state)],
          bare: true,
          cell: ({ outcome, state }) => `${outcome}${state === 'counted' ? '' : `, ${state}`}`,
        },
        { head: 'Standard', bare: true, cell: ({ standard }) => standardTitle(standards, standard) },
        { head: 'Grader', cell: (test) => <bdi>{graderWords(test)}</bdi> },
        {
          head: 'Closed',
          facts: [momentFact('Closed', ({ finishedAt }) => finishedAt)],
          tight: true,
          cell: ({ finishedAt }) => formatTime(finishedAt, zone),
        },
      ]}
    />
  )
}
