import { shortName } from '../../domain/soldiers/format-person.ts'
import { Empty } from '../../ui/empty.tsx'
import { More } from '../../ui/more.tsx'
import { Section } from '../../ui/section.tsx'
import { AttemptsTable } from './attempts-table.tsx'
import { Readings } from './readings.tsx'
import type { Candidate } from './use-candidate.ts'

/** The attempts of the standard that is shown, as strips, and the readings taken on them. */
export function AttemptsSection({ soldier, view, sheetPages, today }: Candidate) {
  return (
    <>
      <Section title={view.title} note="one bar a trial: tall correct, short and hollow incorrect, a dot not called">
        {view.rows.length === 0 ? (
          <Empty>
            <p>{shortName(soldier)} has no sheet yet. The first one shows here as soon as it is entered.</p>
          </Empty>
        ) : (
          <AttemptsTable rows={view.rows} measures={view.measures} today={today} />
        )}
        <More
          hasMore={sheetPages.hasNextPage}
          loading={sheetPages.isFetchingNextPage}
          onMore={sheetPages.fetchNextPage}
        >
          Show earlier sheets
        </More>
      </Section>
      {view.gauges.length > 0 && (
        <Section title="Readings" note="dots on their band, hollow outside it">
          <div className="readings-grid">
            {view.gauges.map((gauge) => (
              <Readings key={gauge.code} gauge={gauge} today={today} />
            ))}
          </div>
        </Section>
      )}
    </>
  )
}
