import { useQuery } from '@tanstack/react-query'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import type { Standard } from '#contract/standards/standards.ts'
import { soldierQuery } from '../../../api/soldiers/soldiers.ts'
import { newId } from '../../../domain/new-id.ts'
import { formatUnfinished } from '../../../domain/sheets/format-score.ts'
import { timeZoneOf } from '../../../domain/soldiers/unit-tree.ts'
import { Button } from '../../../ui/button.tsx'
import { Notice } from '../../../ui/notice.tsx'
import { Page } from '../../../ui/page.tsx'
import { Section } from '../../../ui/section.tsx'
import { today } from '../../../words/today.ts'
import { unitZone } from '../../../words/unit-zone.ts'
import { AnswerPage } from './answer-page.tsx'
import { armFor, chooseArm } from './choose-arm.ts'
import { defaultStandardId, enterable } from './default-standard.ts'
import { DiscardDraft } from './discard-draft.tsx'
import { type Draft, newDraft } from './draft.ts'
import { EndingFields } from './ending-fields.tsx'
import { EntryList } from './entry-list.tsx'
import { HeadFields } from './head-fields.tsx'
import { MarksSection } from './marks-section.tsx'
import { nameOfPlace } from './name-of-place.ts'
import { ScoreLine } from './score-line.tsx'
import { SecondOfField } from './second-of-field.tsx'
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
  const blank = (before?: Draft) => {
    const standardId = before?.standardId ?? defaultStandardId(standards, today())
    const draft = newDraft(newId(), {
      standardId,
      day: before?.day ?? today(timeZoneOf(units)),
      grader: before?.grader ?? null,
      arm: before?.arm ?? armFor(standards.find(({ id }) => id === standardId)?.arms ?? [], ''),
    })
    return before ? { ...draft, purpose: before.purpose } : { ...draft, ...begin }
  }
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

  const list = (
    <EntryList
      entries={entries.entries.filter((entry) => entry.draft.id !== draft.id)}
      arrivals={entries.arrivals.filter(({ entry }) => entry.draft.id !== answer?.entry.draft.id)}
      standardTitle={(id) => standards.find((one) => one.id === id)?.title ?? ''}
      onOpen={(entry) => {
        entries.change(entry.draft)
        desk.begin(entry.draft)
      }}
      onSend={(entry) => void entries.send(entry)}
      onDiscard={entries.drop}
    />
  )
  if (!standard || !assessment) {
    return (
      <Page
        title="Enter a sheet"
        answer="No published standard can be entered yet."
        why="The training office defines and publishes a standard first."
        focusElsewhere
      />
    )
  }
  if (answer) {
    const { entry } = answer
    return (
      <AnswerPage
        answer={answer}
        onNext={() => desk.begin(blank(entry.draft))}
        onTry={() => void desk.deliver(entry)}
        onChange={() => {
          entries.change(entry.draft)
          desk.begin(entry.draft)
        }}
        onDiscard={() => {
          entries.drop(entry.draft.id)
          desk.begin(blank(entry.draft))
        }}
      >
        {list}
      </AnswerPage>
    )
  }
  const submit = () => void desk.submit(timeZone)
  return (
    <Page
      key="sheet"
      title="Enter a sheet"
      answer={
        draft.amends
          ? 'Change what was entered wrong.'
          : draft.purpose === 'practice'
            ? 'Type the practice as it stands on the paper.'
            : 'Type the sheet as it stands on the paper.'
      }
      why={
        draft.amends
          ? 'The stored sheet stays as a revision; this becomes the next one.'
          : `${draft.purpose === 'practice' ? 'Practice counts for nothing and enters no figure. ' : ''}1 is correct, 0 is incorrect; the place moves on by itself. What is typed stays on this device until the server has it.`
      }
      compact
      focusElsewhere
    >
      <form
        noValidate
        onSubmit={(event) => {
          event.preventDefault()
          submit()
        }}
        onKeyDown={(event) => {
          if (event.key !== 'Enter' || !(event.ctrlKey || event.metaKey)) return
          event.preventDefault()
          submit()
        }}
      >
        {!entries.kept && (
          <Notice kind="bad">
            <p>This browser keeps nothing on this device: send each sheet before you leave the page.</p>
          </Notice>
        )}
        {desk.problems.other.map((problem) => (
          <Notice key={problem} kind="bad">
            <p>{problem}</p>
          </Notice>
        ))}
        <Section title="Sheet">
          <HeadFields
            draft={draft}
            standards={enterable(standards)}
            standard={standard}
            errors={assessment.head}
            timeZone={timeZone}
            sponsorHint={
              ofRecord && ofRecord.sponsorId !== draft.sponsor?.id
                ? `Of record that day: ${ofRecord.sponsorName}`
                : undefined
            }
            onChange={desk.edit}
            onStandard={(standardId) => {
              const arms = standards.find(({ id }) => id === standardId)?.arms ?? []
              desk.edit({
                standardId,
                arm: candidate ? chooseArm(candidate.arms, arms, draft.arm) : armFor(arms, draft.arm),
              })
            }}
            onCandidate={(person, arms) =>
              desk.edit({
                candidate: person,
                secondOf: '',
                arm: person ? chooseArm(arms, standard.arms, draft.arm) : draft.arm,
              })
            }
            onDone={desk.toMarks}
          />
          <SecondOfField
            draft={draft}
            standard={standard.code}
            timeZone={timeZone}
            onSecondOf={(secondOf) => desk.edit({ secondOf })}
          />
        </Section>
        {(draft.holds === 'marks' || draft.holds === 'void') && (
          <MarksSection desk={desk} standard={standard} assessment={assessment} />
        )}
        <Section title="Beside the marks">
          <EndingFields draft={draft} errors={assessment.head} onChange={desk.edit} />
          {desk.tried && assessment.open.length > 0 && (
            <Notice kind="bad">
              <p>{formatUnfinished(assessment.open.map((cell) => nameOfPlace(standard, cell)))}</p>
            </Notice>
          )}
          <div className="enter-send">
            <Button type="submit" kind="main" disabled={desk.pending}>
              {desk.pending ? 'Sending' : draft.amends ? 'Send the amendment' : 'Send the sheet'}
            </Button>
            <DiscardDraft
              draft={draft}
              onDiscard={() => {
                entries.drop(draft.id)
                desk.begin(blank(draft.amends ? undefined : draft))
              }}
            />
            <ScoreLine score={assessment.score} />
          </div>
        </Section>
      </form>
      {list}
      <p className="caution">{standard.cautions.join(' ')}</p>
    </Page>
  )
}
