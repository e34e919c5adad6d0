import { useInfiniteQuery, useQuery } from '@tanstack/react-query'
import { certificationsQuery } from '../../api/certifications.ts'
import { retestsQuery } from '../../api/retests.ts'
import { sheetsQuery } from '../../api/sheets.ts'
import { soldierQuery, soldierStatusQuery } from '../../api/soldiers.ts'
import { standardsQuery } from '../../api/standards.ts'
import { unitsQuery } from '../../api/units.ts'
import { listName, shortName } from '../../model/say-person.ts'
import {
  certificationsOn,
  certificationTitle,
  faultTitle,
  measureTitle,
  standardTitle,
  versionsOf,
} from '../../model/titles.ts'
import { fullUnitName, timeZoneOf } from '../../model/unit-tree.ts'
import { Button } from '../../ui/button.tsx'
import { Empty } from '../../ui/empty.tsx'
import { SelectField } from '../../ui/field.tsx'
import { More } from '../../ui/more.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { useFilters } from '../../ui/use-filters.ts'
import { sayDay } from '../../words/say-day.ts'
import { capital, counted, countedInWords, plural } from '../../words/say-number.ts'
import { today as todayIn } from '../../words/today.ts'
import { attemptRows, entersStatus } from './attempt-rows.ts'
import { AttemptsTable } from './attempts-table.tsx'
import { FaultList } from './fault-list.tsx'
import { gaugeLines } from './gauge-lines.ts'
import { Readings } from './readings.tsx'
import { recordLines } from './record-lines.ts'
import { RecordList } from './record-list.tsx'
import { sayCandidate, sayRetestDates, sayWeakSpots } from './say-candidate.ts'
import { standardsTaken } from './standards-taken.ts'
import { Standing } from './standing.tsx'
import { faultsNoted, weakMeasures } from './weak-spots.ts'

/** One soldier: how they stand, their attempts as strips, readings, faults, and what else is on record. */
export default function CandidatePage({ id }: { id: string }) {
  const [filters, setFilters] = useFilters(['standard'])
  const soldier = useQuery(soldierQuery(id))
  const status = useQuery(soldierStatusQuery(id))
  const sheetPages = useInfiniteQuery(sheetsQuery({ soldierId: id }))
  const units = useQuery(unitsQuery).data ?? []
  const standards = useQuery(standardsQuery).data
  const allTerms = useQuery(certificationsQuery).data
  const unitId = soldier.data?.unitId ?? undefined
  const retests = useQuery(retestsQuery({ soldierId: id })).data ?? []

  const error = soldier.error ?? status.error ?? sheetPages.error
  const today = todayIn(timeZoneOf(units, unitId))
  const sheets = sheetPages.data?.pages.flatMap(({ items }) => items)
  if (!soldier.data || !status.data || !sheets || !standards || !allTerms) {
    return <Page title="Candidate" error={error} onRetry={() => location.reload()} />
  }

  const certifications = certificationsOn(allTerms, today)
  const titles = {
    certification: (code: string) => certificationTitle(certifications, code),
    standard: (code: string) => standardTitle(standards, code),
    unit: (unit: string) => fullUnitName(units, unit),
    day: (day: string) => sayDay(day, today),
  }
  const taken = standardsTaken(sheets, retests)
  const code = filters.standard || taken[0] || ''
  const newest = versionsOf(standards, code)[0]
  const ofStandard = sheets.filter(({ body }) => body.standard === code)
  const measures = newest?.minors ?? []
  const faults = faultsNoted(ofStandard)
  const tests = ofStandard.filter((sheet) => entersStatus(sheet) && sheet.result.ending !== 'recorded').length
  const retest = retests.find(({ standard }) => standard === code) ?? retests[0]
  const weak = sayWeakSpots(tests, weakMeasures(ofStandard), faults, {
    measure: (measure) => measureTitle(standards, code, measure),
    fault: (measure, fault) => faultTitle(standards, code, measure, fault),
  })
  const name = shortName(soldier.data)
  const held = ofStandard.filter(({ state }) => state === 'held').length
  const heldNote =
    held > 0
      ? `${capital(countedInWords(held, 'sheet'))} ${plural(held, 'is held and counts', 'are held and count')} for nothing yet.`
      : ''
  const gauges = newest ? gaugeLines(ofStandard, standards, newest) : []

  return (
    <Page
      title={listName(soldier.data)}
      answer={<bdi>{sayCandidate({ name, statuses: status.data, sheets, titles, today })}</bdi>}
      why={[retest && sayRetestDates(retest, titles.standard(retest.standard), today), weak, heldNote]
        .filter(Boolean)
        .join(' ')}
      controls={
        <>
          {taken.length > 1 && (
            <SelectField
              label="Standard"
              value={code}
              onChange={(event) => setFilters({ standard: event.target.value })}
            >
              {taken.map((standard) => (
                <option key={standard} value={standard}>
                  {titles.standard(standard)}
                </option>
              ))}
            </SelectField>
          )}
          <Button className="push" onClick={() => window.print()}>
            Print
          </Button>
        </>
      }
    >
      <div className="columns">
        <Section title="Certifications" note="as of today">
          <Standing
            statuses={status.data}
            retests={retests}
            certifications={certifications}
            standardTitle={titles.standard}
            today={today}
          />
        </Section>
        <Section title="Soldier">
          <p>
            <b>
              <bdi>{listName(soldier.data)}</bdi>
            </b>{' '}
            <span className="muted">{soldier.data.rosterNumber}</span>
          </p>
          <p>
            {unitId
              ? fullUnitName(units, unitId)
              : `Left on ${soldier.data.left ? titles.day(soldier.data.left.on) : 'an earlier day'}`}
          </p>
          <p className="muted">Carries {soldier.data.arms.join(', ') || 'no arm on record'}</p>
        </Section>
      </div>
      <Section
        title={newest ? newest.title : 'Attempts'}
        note="one bar a trial: tall correct, short and hollow incorrect, a dot not called"
      >
        {ofStandard.length === 0 ? (
          <Empty>
            <p>{name} has no sheet yet. The first one shows here as soon as it is entered.</p>
          </Empty>
        ) : (
          <AttemptsTable rows={attemptRows(ofStandard, standards, measures)} measures={measures} today={today} />
        )}
        <More
          hasMore={sheetPages.hasNextPage}
          loading={sheetPages.isFetchingNextPage}
          onMore={sheetPages.fetchNextPage}
        >
          Show earlier sheets
        </More>
      </Section>
      {gauges.length > 0 && (
        <Section title="Readings" note="dots on their band, hollow outside it">
          <div className="readings-grid">
            {gauges.map((gauge) => (
              <Readings key={gauge.code} gauge={gauge} today={today} />
            ))}
          </div>
        </Section>
      )}
      <div className="columns halves">
        {faults.length > 0 && (
          <Section title="Faults" note={`noted on trials of ${counted(tests, 'test')}`}>
            <FaultList
              faults={faults}
              measureTitle={(measure) => measureTitle(standards, code, measure)}
              faultTitle={(measure, fault) => faultTitle(standards, code, measure, fault)}
            />
          </Section>
        )}
        <Section title="On record" note="beside the sheets">
          <RecordList lines={recordLines(soldier.data, titles)} />
        </Section>
      </div>
      <p className="caution">
        A result is a training record, not a medical or disciplinary finding. Unit procedure, the safety officer and
        licensed medical staff come before anything written here.
      </p>
    </Page>
  )
}
