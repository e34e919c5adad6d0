import { Link } from 'wouter'
import { dayInZone } from '#calendar/day-in-zone.ts'
import type { SheetBody } from '#contract/sheets/sheets.ts'
import { addressTo, paths } from '../../paths.ts'
import { formatDay } from '../../words/format-day.ts'
import { formatTime } from '../../words/format-time.ts'
import { unitZone } from '../../words/unit-zone.ts'
import './facts.css'

interface FactsProps {
  body: SheetBody
  day: string
  /** Null: on this device, not yet sent. */
  receivedAt: string | null
  nameOf: (id: string) => string
  standardTitle: string
  timeZone: string | null
  today: string
}

const CONDITIONS = { uniform: 'uniform', equipment: 'equipment', sponsorPresent: 'sponsor present' } as const

/** The head of the sheet: people, times, arm, conditions, pauses, notes. */
export function Facts({ body, day, receivedAt, nameOf, standardTitle, timeZone, today }: FactsProps) {
  const unmet = (Object.keys(CONDITIONS) as (keyof typeof CONDITIONS)[]).filter((key) => !body.conditions[key])
  const time = (instant: string) => formatTime(instant, timeZone)
  const rows: [string, React.ReactNode][] = [
    [
      'Standard',
      <Link href={addressTo(paths.standard, { id: body.standard })} key="standard">
        {standardTitle}
      </Link>,
    ],
    ['Version', body.standardVersion],
    ['Arm', body.arm],
    ['Candidate', <Person key="candidate" id={body.candidateId} nameOf={nameOf} />],
    ['Sponsor', body.sponsorId ? <Person key="sponsor" id={body.sponsorId} nameOf={nameOf} /> : 'none'],
    ['Grader', <Person key="grader" id={body.graderId} nameOf={nameOf} />],
    ['Day', formatDay(day, today)],
    ['Time', `${time(body.startedAt)} to ${time(body.finishedAt)}`],
    ['Conditions', unmet.length === 0 ? 'in order' : `not met: ${unmet.map((key) => CONDITIONS[key]).join(', ')}`],
    ['Pauses', body.pauses.map(({ from, to }) => `${time(from)} to ${to ? time(to) : 'the end'}`).join(', ')],
    ['Void', body.void?.text],
    ['Notes', body.notes],
    ['Received', receivedAt === null ? 'not yet' : formatDay(dayInZone(receivedAt, timeZone ?? unitZone()), today)],
    ['Seen by', body.acknowledged.map(({ soldierId, at }) => `${nameOf(soldierId)} at ${time(at)}`).join('; ')],
  ]
  return (
    <dl className="facts">
      {rows.map(([name, value]) =>
        value ? (
          <div key={name}>
            <dt>{name}</dt>
            <dd>
              <bdi>{value}</bdi>
            </dd>
          </div>
        ) : null,
      )}
    </dl>
  )
}

function Person({ id, nameOf }: { id: string; nameOf: (id: string) => string }) {
  return id === '' ? nameOf(id) : <Link href={addressTo(paths.candidate, { id })}>{nameOf(id)}</Link>
}
