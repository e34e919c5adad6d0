import { useState } from 'react'
import type { Retest } from '#contract/standards/certifications.ts'
import { fullUnitName } from '../../../domain/soldiers/unit-tree.ts'
import { standardTitle } from '../../../domain/standards/titles.ts'
import { FilledBy } from '../../../parts/first-steps/filled-by.tsx'
import { Empty } from '../../../ui/empty.tsx'
import { Page } from '../../../ui/page.tsx'
import { Section } from '../../../ui/section.tsx'
import { counted } from '../../../words/format-number.ts'
import { BacklogPictures } from './backlog-pictures.tsx'
import { BulkBooking } from './bulk-booking.tsx'
import { ChooseAll } from './choose-all.tsx'
import { Controls } from './controls.tsx'
import { DueDialog } from './due-dialog.tsx'
import { keyOf } from './filter-retests.ts'
import { formatBacklog, formatWhatIsReady, tallyRetests } from './format-retests.ts'
import { KeptPart } from './kept-part.tsx'
import { PlanLine } from './plan-line.tsx'
import { RetestTable } from './retest-table.tsx'
import { useRetests } from './use-retests.ts'

/** The backlog of retests: who, what, from when, by when; the office books from it. */
export default function RetestsPage() {
  const backlog = useRetests()
  const { filters, setFilters, words, today, asOf, retests, all, list, mayBook } = backlog
  const [chosen, setChosen] = useState<readonly string[]>([])
  const [moving, setMoving] = useState<Retest | null>(null)
  const choose = (key: string, on: boolean) => setChosen(on ? [...chosen, key] : chosen.filter((one) => one !== key))
  const tally = all && tallyRetests(all, asOf)
  const planned = filters.unitId || words.units.find(({ parentId }) => parentId === null)?.id
  const open = filters.view === '' ? list : undefined

  return (
    <Page
      title="Retests"
      answer={tally && formatBacklog(tally, filters.unitId ? fullUnitName(words.units, filters.unitId) : '')}
      why={tally && all && formatWhatIsReady(tally, all, asOf)}
      error={list ? null : retests.error}
      onRetry={retests.refetch}
      busy={retests.isPlaceholderData}
      controls={
        <Controls
          filters={filters}
          onChange={setFilters}
          asOf={asOf}
          today={today}
          units={words.units}
          certifications={words.certifications}
        />
      }
    >
      {filters.view === 'kept' && (
        <Section title="GOs that stop counting soon" note="within thirty days">
          <KeptPart asOf={asOf} unitId={filters.unitId} {...words} />
        </Section>
      )}
      {mayBook && planned && filters.view === '' && (
        <PlanLine unitId={planned} today={today} title={(code) => standardTitle(words.standards, code)} />
      )}
      {mayBook && list && (chosen.length > 0 || filters.book) && (
        <BulkBooking
          chosen={list.filter((one) => chosen.includes(keyOf(one)))}
          days={backlog.bookable}
          standards={words.standards}
          testDayId={filters.book}
          onTestDay={(book) => setFilters({ book })}
          onBooked={() => setChosen([])}
          zone={backlog.zone}
          today={today}
        />
      )}
      {moving && <DueDialog retest={moving} today={today} onClose={() => setMoving(null)} />}
      {open && <BacklogPictures list={open} asOf={asOf} unitId={filters.unitId} today={today} />}
      {open && open.length > 0 && (
        <Section title="Open retests" note={`${counted(open.length, 'retest')}, in order of due day`}>
          {mayBook && <ChooseAll rows={open} chosen={chosen} onChosen={setChosen} />}
          <RetestTable
            rows={open}
            asOf={asOf}
            {...words}
            canBook={mayBook}
            chosen={chosen}
            onChoose={choose}
            onMove={setMoving}
            bookedOn={backlog.bookedOn}
            forecastOf={backlog.forecastOf}
          />
        </Section>
      )}
      {open?.length === 0 && (
        <Section title="Open retests">
          <Empty>
            <p>
              {all?.length === 0
                ? 'Nobody here has to retest on that day.'
                : 'No open retest matches. Show all open ones.'}
            </p>
            <FilledBy steps={['test-days']} />
          </Empty>
        </Section>
      )}
    </Page>
  )
}
