import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import type { ReadinessForecast, WhatIf } from '#contract/readiness-forecast/readiness-forecast.ts'
import { isUnderWay, planQuery } from '../../../api/plans/plans.ts'
import { whatIfQuery } from '../../../api/readiness-forecast/readiness-forecast.ts'
import { formatExpected, formatInTen } from '../../../domain/readiness/format-ahead.ts'
import { addressTo, paths } from '../../../paths.ts'
import { Failure } from '../../../ui/failure.tsx'
import { Section } from '../../../ui/section.tsx'
import { Table } from '../../../ui/table.tsx'
import { formatDay } from '../../../words/format-day.ts'
import { counted, figure } from '../../../words/format-number.ts'
import { useWhatIf, type WhatIfFilters } from './use-what-if.ts'
import { WhatIfFields } from './what-if-fields.tsx'
import './ahead.css'

interface WhatIfProps {
  unitId: string | undefined
  certification: string
  on: string
  today: string
  need: ReadinessForecast['need']
  standards: readonly string[]
  standardTitle: (code: string) => string
}

/** The answer as things are booked beside what it would be if something were changed; kept in the address alone. */
export function WhatIfPart({ unitId, certification, on, today, ...more }: WhatIfProps) {
  const filters = useWhatIf({ on, standards: more.standards })
  const { supposed, moreOn, until } = filters
  const plan = useQuery(planQuery(supposed.plan || undefined))
  const isPlanOpen = supposed.plan !== '' && (!plan.data || isUnderWay(plan.data))
  const isAsked = Object.values(supposed).some((one) => one !== '')
  const query = useQuery({
    ...whatIfQuery({ unitId, certification, on, ...supposed }),
    enabled: isAsked && !isPlanOpen && certification !== '',
  })
  const error = plan.error ?? query.error
  return (
    <Section title="What if" note="nothing is stored; the link keeps it">
      <WhatIfFields filters={filters} unitId={unitId} on={on} today={today} {...more} />
      {moreOn > until && <p className="part-answer">A test day after that day changes nothing. Pick an earlier one.</p>}
      {isAsked && error && <Failure error={error} onRetry={() => query.refetch()} />}
      {isAsked && !error && isPlanOpen && <p className="muted">The plan is being worked out …</p>}
      {isAsked && !error && !isPlanOpen && query.data && (
        <>
          <SideBySide found={query.data} today={today} />
          <ToMakeItSo filters={filters} />
        </>
      )}
    </Section>
  )
}

interface Line {
  what: string
  before: string
  after: string
}

function SideBySide({ found: { before, after, free }, today }: { found: WhatIf; today: string }) {
  const on = (day: string) => (before.on === after.on ? '' : `, ${formatDay(day, today)}`)
  return (
    <>
      <Table<Line>
        caption="As it is booked and what if"
        rows={linesOf(before, after)}
        rowKey={({ what }) => what}
        columns={[
          { head: 'Of those required', tight: true, cell: ({ what }) => <b>{what}</b> },
          { head: `As it is booked${on(before.on)}`, cell: (line) => line.before },
          { head: `What if${on(after.on)}`, cell: (line) => line.after },
        ]}
      />
      {free > 0 && (
        <p className="rests-on">
          {counted(free, 'slot')} more would stay free: nobody else lacks that test and may take it by then.
        </p>
      )}
    </>
  )
}

function linesOf(before: ReadinessForecast, after: ReadinessForecast): Line[] {
  const line = (what: string, say: (one: ReadinessForecast) => string): Line => {
    return { what, before: say(before), after: say(after) }
  }
  const isNeeded = before.need !== null || after.need !== null
  return [
    line('Certified', formatExpected),
    line('With a test booked', ({ booked }) => figure(booked)),
    ...(isNeeded
      ? [line('Enough for the ceremonies', ({ need }) => (need ? formatInTen(need.chance) : 'no ceremony'))]
      : []),
  ]
}

/** Where each change is made; here it is only supposed. */
function ToMakeItSo({ filters: { supposed, fewerOn, away, ceremony, planned } }: { filters: WhatIfFilters }) {
  const links = [
    supposed.more && { text: 'Plan the test day', to: paths.testDays },
    supposed.fewer && { text: 'Open the test day with slots fewer', to: addressTo(paths.testDay, { id: fewerOn }) },
    supposed.away && { text: 'Enter the grader’s absence', to: addressTo(paths.candidate, { id: away }) },
    supposed.moved && { text: 'Move the ceremony', to: addressTo(paths.ceremonyEdit, { id: ceremony }) },
    supposed.plan && { text: 'See and book the plan', to: addressTo(paths.retestPlan, { id: planned }) },
  ].filter((link) => link !== '')
  return (
    <p className="no-print">
      To make it so:{' '}
      {links.map(({ text, to }, at) => (
        <span key={to}>
          {at > 0 && ' · '}
          <Link href={to}>{text}</Link>
        </span>
      ))}
    </p>
  )
}
