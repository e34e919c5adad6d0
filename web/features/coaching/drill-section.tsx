import type { Drill, DrillPlan } from '#contract/coaching/coaching.ts'
import { formatDrillReason, formatUnitRate, isToDrill } from '../../domain/coaching/format-drill.ts'
import { Section } from '../../ui/section.tsx'
import { Table } from '../../ui/table.tsx'
import { ofAll } from '../../words/of-all.ts'

interface DrillSectionProps {
  drill: DrillPlan
  /** In order of what drilling each adds to the chance to pass; else of the failures. */
  byGain: boolean
  measureTitle: (measure: string) => string
  /** The fault noted most on trials of a measure, and how often; '' where none was. */
  mostNoted: (measure: string) => string
  /** When a measure was last practised by itself, and how it went; '' where it was not. */
  practised: (measure: string) => string
  today: string
}

/** Of measures that are GO, so many with the most to gain are drilled along. */
const GO_BUT_GAINING = 5

/** What to drill, in order and why, beside the unit’s first-timers; and what is GO since it was NO-GO. */
export function DrillSection({ drill, byGain, measureTitle, mostNoted, practised, today }: DrillSectionProps) {
  const toDrill = drill.items.filter((item, at) => isToDrill(item) || (byGain && !item.major && at < GO_BUT_GAINING))
  const better = drill.items.filter(({ improved }) => improved !== null)
  const versions = drill.items.some(({ otherVersions }) => otherVersions.length > 0)
  return (
    <div id="drill">
      <Section
        title="Drill in this order"
        note={`${byGain ? 'what raises the chance to pass most comes first; majors before all' : 'by what failed'}; from ${drill.tests === 1 ? 'one test that counts' : `${drill.tests} tests that count`}`}
      >
        {toDrill.length === 0 ? (
          <p className="muted">Every measure was GO when last tested.</p>
        ) : (
          <Table<Drill>
            caption="Measures to drill, in order"
            rows={toDrill}
            rowKey={({ measure }) => measure}
            columns={[
              {
                head: 'Measure',
                cell: ({ measure, major, otherVersions }) => (
                  <>
                    <b>{measureTitle(measure)}</b>
                    {major && ' (major)'}
                    {otherVersions.length > 0 && ' *'}
                  </>
                ),
              },
              { head: 'Why', bare: true, cell: (one) => formatDrillReason(one, drill.tests, today) },
              { head: 'Most noted', cell: ({ measure }) => mostNoted(measure) },
              ...(toDrill.some(({ measure }) => practised(measure) !== '')
                ? [{ head: 'Practised', cell: ({ measure }: Drill) => practised(measure) }]
                : []),
              { head: 'NO-GO here', cell: ({ noGo, tested }) => (tested === 0 ? 'not tested' : ofAll(noGo, tested)) },
              { head: 'NO-GO of first-timers', cell: ({ unit }) => formatUnitRate(unit) },
            ]}
          />
        )}
        {versions && (
          <p className="muted small">* Tested also under a version of the standard that defined it otherwise.</p>
        )}
      </Section>
      {better.length > 0 && (
        <Section title="GO since" note="NO-GO before, GO in every test after; too few tests to say more">
          <ul>
            {better.map((one) => (
              <li key={one.measure}>
                <b>{measureTitle(one.measure)}</b>{' '}
                <span className="muted">{formatDrillReason(one, drill.tests, today)}</span>
              </li>
            ))}
          </ul>
        </Section>
      )}
    </div>
  )
}
