import { useQuery } from '@tanstack/react-query'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import type { Standard } from '#contract/standards/standards.ts'
import { soldierQuery } from '../../../api/soldiers/soldiers.ts'
import { timeZoneOf } from '../../../domain/soldiers/unit-tree.ts'
import { FilledBy } from '../../../parts/first-steps/filled-by.tsx'
import { Empty } from '../../../ui/empty.tsx'
import { Page } from '../../../ui/page.tsx'
import { unitZone } from '../../../words/unit-zone.ts'
import { AnswerPage } from './answer-page.tsx'
import type { Draft } from './draft.ts'
import { EntryForm } from './entry-form.tsx'
import { EntryList } from './entry-list.tsx'
import type { Entry } from './entry-store.ts'
import { nextDraft } from './next-draft.ts'
import { useDesk } from './use-desk.ts'
import { useEntries } from './use-entries.ts'
import { useSponsorOfRecord } from './use-sponsor-of-record.ts'
import './enter.css'

interface EntryDeskProps {
  accountId: string
  standards: readonly Standard[]
  units: readonly Unit[]
  amendment: Draft | null
  /** What a new sheet begins with; null: nothing in particular. */
  begin: Partial<Draft> | null
}

/** The desk at which paper sheets are typed in, one after another. */
export function EntryDesk({ accountId, standards, units, amendment, begin }: EntryDeskProps) {
  const entries = useEntries(accountId)
  const blank = (before?: Draft) => nextDraft({ standards, timeZone: timeZoneOf(units), begin }, before)
  const desk = useDesk(
    entries,
    standards,
    () =>
      amendment ??
      (begin?.candidate
        ? null
        : entries.entries.find(({ state, draft }) => state === 'open' && !draft.amends)?.draft) ??
      blank(),
  )
  const { draft, standard, assessment, answer } = desk
  const candidate = useQuery(soldierQuery(draft.candidate?.id ?? '')).data
  const timeZone = timeZoneOf(units, candidate?.unitId) ?? unitZone()
  const ofRecord = useSponsorOfRecord(candidate, draft, (sponsor) => desk.edit({ sponsor }))
  const open = ({ draft }: Entry) => {
    entries.change(draft)
    desk.begin(draft)
  }
  const drop = (id: string, next: Draft) => {
    entries.drop(id)
    desk.begin(next)
  }

  const list = (
    <EntryList
      entries={entries.entries.filter((entry) => entry.draft.id !== draft.id)}
      arrivals={entries.arrivals.filter(({ entry }) => entry.draft.id !== answer?.entry.draft.id)}
      standardTitle={(id) => standards.find((one) => one.id === id)?.title ?? ''}
      onOpen={open}
      onSend={(entry) => void entries.send(entry)}
      onDiscard={entries.drop}
    />
  )
  if (!standard || !assessment) return <NothingToEnter />
  if (answer) {
    const { entry } = answer
    return (
      <AnswerPage
        answer={answer}
        onNext={() => desk.begin(blank(entry.draft))}
        onTry={() => void desk.deliver(entry)}
        onChange={() => open(entry)}
        onDiscard={() => drop(entry.draft.id, blank(entry.draft))}
      >
        {list}
      </AnswerPage>
    )
  }
  return (
    <EntryForm
      desk={desk}
      isKept={entries.kept}
      head={{
        standards,
        candidate,
        timeZone,
        sponsorHint:
          ofRecord && ofRecord.sponsorId !== draft.sponsor?.id
            ? `Of record that day: ${ofRecord.sponsorName}`
            : undefined,
      }}
      standard={standard}
      assessment={assessment}
      onDiscard={() => drop(draft.id, blank(draft.amends ? undefined : draft))}
    >
      {list}
    </EntryForm>
  )
}

function NothingToEnter() {
  return (
    <Page
      title="Enter a sheet"
      answer="No published standard can be entered yet."
      why="The training office defines and publishes a standard first."
      focusElsewhere
    >
      <Empty>
        <p>A sheet on paper is entered by the standard it was taken under.</p>
        <FilledBy steps={['standards', 'roster']} />
      </Empty>
    </Page>
  )
}
