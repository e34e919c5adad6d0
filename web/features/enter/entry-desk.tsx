import type { Unit } from '#contract/people.ts'
import type { SheetBody } from '#contract/sheets.ts'
import type { Standard } from '#contract/standards.ts'
import { findMalformed } from '#scoring/find-malformed.ts'
import { runningScore, scoreSheet } from '#scoring/score-sheet.ts'
import { useQuery } from '@tanstack/react-query'
import { useEffect, useState } from 'react'
import { soldierQuery } from '../../api/soldiers.ts'
import { scoredStandard } from '../../model/scored-standard.ts'
import { timeZoneOf } from '../../model/unit-tree.ts'
import { Button } from '../../ui/button.tsx'
import { Notice } from '../../ui/notice.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { deviceZone, today } from '../../words/today.ts'
import { Answer } from './answer.tsx'
import { cellsOf, endedAfter, isBeyondEnd } from './cells.ts'
import { chooseArm } from './choose-arm.ts'
import { defaultStandardId, enterable } from './default-standard.ts'
import { type Draft, hasContent, newDraft, type Person } from './draft.ts'
import { EndingFields } from './ending-fields.tsx'
import { EntryList } from './entry-list.tsx'
import type { Entry } from './entry-store.ts'
import { HeadFields } from './head-fields.tsx'
import { KeyHelp } from './key-help.tsx'
import { type Marking, placeAfter, pressKey, targetOf } from './key-marking.ts'
import { MarkGrid } from './mark-grid.tsx'
import { MarkPanel } from './mark-panel.tsx'
import { setAtCall, setReading, toggleFault } from './mark-draft.ts'
import { openPlaces } from './open-places.ts'
import { cellKey, type PlacedProblems, placeProblems } from './place-problems.ts'
import { sayStored, sayUnfinished } from './say-entry.ts'
import { ScoreLine } from './score-line.tsx'
import type { Sent } from './send-entry.ts'
import { sponsorOfRecord } from './sponsor-of-record.ts'
import { marksOf, missingInHead, toBody } from './to-body.ts'
import { TouchPad } from './touch-pad.tsx'
import { useEntries } from './use-entries.ts'
import './enter.css'

interface EntryDeskProps {
  accountId: string
  standards: readonly Standard[]
  units: readonly Unit[]
  amendment: Draft | null
}

const NO_PROBLEMS: PlacedProblems = { head: {}, cells: {}, other: [] }

/** The desk at which paper sheets are typed in, one after another. */
export function EntryDesk({ accountId, standards, units, amendment }: EntryDeskProps) {
  const { entries, kept, arrivals, change, drop, send } = useEntries(accountId)
  const blank = (before?: Draft) =>
    newDraft(crypto.randomUUID(), {
      standardId: before?.standardId ?? defaultStandardId(standards, today()),
      day: before?.day ?? today(timeZoneOf(units, units[0]?.id)),
      grader: before?.grader ?? null,
      sponsor: before?.sponsor ?? null,
      arm: before?.arm ?? '',
    })
  const [fresh, setFresh] = useState<Draft>(
    () => amendment ?? entries.find(({ state }) => state === 'open')?.draft ?? blank(),
  )
  const [place, setPlace] = useState<Pick<Marking, 'at' | 'last'>>({ at: 0, last: null })
  const [focusCount, setFocusCount] = useState(0)
  const [tried, setTried] = useState(false)
  const [problems, setProblems] = useState(NO_PROBLEMS)
  const [answer, setAnswer] = useState<{ entry: Entry; sent: Exclude<Sent, { kind: 'refused' }> } | null>(null)
  const [pending, setPending] = useState(false)

  const draft = entries.find((entry) => entry.draft.id === fresh.id)?.draft ?? fresh
  const standard = standards.find(({ id }) => id === draft.standardId)
  const candidate = useQuery(soldierQuery(draft.candidate?.id ?? '')).data
  const timeZone = timeZoneOf(units, candidate?.unitId ?? units[0]?.id) ?? deviceZone()
  const ofRecord = sponsorOfRecord(candidate, draft.day)

  const setDraft = (next: Draft) => {
    setFresh(next)
    if (hasContent(next)) change(next)
    else drop(next.id)
  }
  const edit = (part: Partial<Draft>) => {
    setProblems(NO_PROBLEMS)
    setDraft({ ...draft, ...part })
  }
  // The sponsor of record comes by itself once the candidate is known, where none is on the sheet yet.
  // biome-ignore lint/correctness/useExhaustiveDependencies: only when another candidate is chosen
  useEffect(() => {
    if (ofRecord && draft.sponsor === null && draft.amends === null && !tried) {
      edit({ sponsor: { id: ofRecord.sponsorId, text: ofRecord.sponsorName } })
    }
  }, [candidate?.id])

  if (!standard) {
    return (
      <Page
        title="Enter a sheet"
        answer="No published standard can be entered yet."
        why="The training office defines and publishes a standard first."
        focusElsewhere
      />
    )
  }

  const scored = scoredStandard(standard)
  const cells = cellsOf(scored)
  const end = endedAfter(draft)
  const marks = marksOf(draft, standard)
  const withMarks = draft.holds === 'marks' || draft.holds === 'void'
  const outcomeOnly = draft.holds === 'GO' || draft.holds === 'NO-GO' ? draft.holds : null
  const voided = draft.holds === 'void' ? { kind: draft.voidKind, text: draft.voidText } : null
  const malformed = withMarks ? findMalformed(scored, { ...marks, void: voided }) : []
  const score =
    malformed.length > 0 ? runningScore(scored, marks) : scoreSheet(scored, { ...marks, void: voided, outcomeOnly })
  // A call that is still to be typed is asked for by its own field and is no mistake yet.
  const shownMalformed = malformed.filter(({ rule }) => rule !== 'at-call' || tried)
  const placed = placeProblems(shownMalformed, marks)
  const wrong = { ...problems.cells, ...placed.cells }
  const headErrors = tried ? { ...missingInHead(draft, standard), ...problems.head } : problems.head
  const marking: Marking = { draft, ...place }
  const target = targetOf(marking, cells)
  const open = openPlaces(scored, draft, score)
  const unfinished = tried && withMarks && malformed.length === 0 && open.length > 0

  const toMarks = () => setFocusCount((count) => count + 1)
  const press = (key: string): boolean => {
    const outcome = pressKey(scored, marking, key)
    if (!outcome) return false
    setPlace({ at: outcome.marking.at, last: outcome.marking.last })
    if (outcome.marking.draft !== draft) edit(outcome.marking.draft)
    const { elsewhere } = outcome
    if (elsewhere?.to === 'readings') focusSoon('[data-reading]')
    if (elsewhere?.to === 'at-call') focusSoon(`#call-${CSS.escape(elsewhere.code)}`)
    return true
  }
  const nameOf = (cell: { code: string; trial: number }) => {
    const title = [...standard.majors, ...standard.minors].find(({ code }) => code === cell.code)?.title ?? cell.code
    return cell.trial === 0 ? title : `${title}, trial ${cell.trial}`
  }
  const chooseCandidate = (person: Person | null, arms: readonly string[]) =>
    edit({ candidate: person, arm: person ? chooseArm(arms, standard.arms, draft.arm) : draft.arm })

  const submit = async (entry?: Entry) => {
    setTried(true)
    const missing = missingInHead(draft, standard)
    if (!entry && (Object.keys(missing).length > 0 || malformed.length > 0 || (withMarks && open.length > 0 && draft.holds === 'marks'))) {
      if (Object.keys(missing).length > 0) focusSoon('[aria-invalid=true]')
      else {
        const first = cells.findIndex((cell) =>
          malformed.length > 0 ? placed.cells[cellKey(cell)] : cellKey(cell) === cellKey(open[0]!),
        )
        if (first >= 0) setPlace({ at: first, last: null })
        toMarks()
      }
      return
    }
    const body: SheetBody = entry?.body ?? toBody(draft, standard, timeZone)
    const sending: Entry = entry ?? { draft, state: 'waiting', body, message: '' }
    setPending(true)
    const sent = await send(sending)
    setPending(false)
    if (!sent) return
    if (sent.kind === 'refused') {
      const answered = placeProblems(sent.items, body)
      const nothing = sent.items.length === 0 || answered.other.length > 0
      setProblems({ ...answered, other: nothing ? [sent.message, ...answered.other] : [] })
      setAnswer(null)
      focusSoon('[aria-invalid=true]')
    } else setAnswer({ entry: sending, sent })
  }
  const begin = (next: Draft) => {
    setFresh(next)
    setPlace({ at: 0, last: null })
    setTried(false)
    setProblems(NO_PROBLEMS)
    setAnswer(null)
    focusSoon('[role=combobox][data-candidate], input[role=combobox]')
  }

  const others = entries.filter((entry) => entry.draft.id !== draft.id || answer?.sent.kind === 'later')
  const list = (
    <EntryList
      entries={others.filter((entry) => entry.draft.id !== answer?.entry.draft.id)}
      arrivals={arrivals.filter(({ entry }) => entry.draft.id !== answer?.entry.draft.id)}
      standardTitle={(id) => standards.find((one) => one.id === id)?.title ?? ''}
      onOpen={(id) => {
        const entry = entries.find((one) => one.draft.id === id)
        if (!entry) return
        change(entry.draft)
        begin(entry.draft)
      }}
      onSend={(entry) => void send(entry)}
      onDiscard={drop}
    />
  )

  if (answer) {
    return (
      <Page
        key="answer"
        title="Enter a sheet"
        answer={<AnswerSentence entry={answer.entry} sent={answer.sent} />}
        why={<bdi>{answer.entry.draft.candidate?.text}</bdi>}
        focusElsewhere
      >
        <Answer
          entry={answer.entry}
          sent={answer.sent}
          onNext={() => begin(blank(answer.entry.draft))}
          onTry={() => void submit(answer.entry)}
          onChange={() => {
            change(answer.entry.draft)
            setFresh(answer.entry.draft)
            setAnswer(null)
          }}
          onDiscard={() => {
            drop(answer.entry.draft.id)
            begin(blank(answer.entry.draft))
          }}
        />
        {list}
      </Page>
    )
  }

  return (
    <Page
      key="sheet"
      title="Enter a sheet"
      answer={draft.amends ? 'Change what was entered wrong.' : 'Type the sheet as it stands on the paper.'}
      why={
        draft.amends
          ? 'The stored sheet stays as a revision; this becomes the next one.'
          : '1 is correct, 0 is incorrect; the place moves on by itself. What is typed stays on this device until the server has it.'
      }
      focusElsewhere
    >
      {/* biome-ignore lint/a11y/noStaticElementInteractions: Ctrl and Enter send from every field */}
      <form
        noValidate
        onSubmit={(event) => {
          event.preventDefault()
          void submit()
        }}
        onKeyDown={(event) => {
          if (event.key === 'Enter' && (event.ctrlKey || event.metaKey)) {
            event.preventDefault()
            void submit()
          }
        }}
      >
        {!kept && (
          <Notice kind="bad">
            <p>This browser keeps nothing on this device: send each sheet before you leave the page.</p>
          </Notice>
        )}
        {problems.other.map((problem) => (
          <Notice key={problem} kind="bad">
            <p>{problem}</p>
          </Notice>
        ))}
        <Section title="Sheet">
          <HeadFields
            draft={draft}
            standards={enterable(standards)}
            standard={standard}
            errors={headErrors}
            sponsorHint={
              ofRecord && ofRecord.sponsorId !== draft.sponsor?.id ? `Of record that day: ${ofRecord.sponsorName}` : undefined
            }
            onChange={edit}
            onCandidate={chooseCandidate}
            onDone={toMarks}
          />
        </Section>
        {withMarks && (
          <Section title="Marks" note="line by line, in the order of the standard">
            <div className="enter-body">
              <div>
                <MarkGrid
                  standard={standard}
                  marking={marking}
                  target={target}
                  score={score}
                  wrong={wrong}
                  beyondEnd={(cell) => isBeyondEnd(cell, scored.calls, end)}
                  focusCount={focusCount}
                  onKey={press}
                  onPlace={(at) => {
                    setPlace({ at, last: null })
                    toMarks()
                  }}
                  onAtCall={(code, typed) => edit(setAtCall(draft, code, typed))}
                  onAtCallDone={() => {
                    setPlace({ at: placeAfter(scored, draft, place.at), last: place.at })
                    toMarks()
                  }}
                />
                <TouchPad onKey={press} />
              </div>
              <div className="enter-side">
                <ScoreLine score={score} />
                <MarkPanel
                  standard={standard}
                  draft={draft}
                  target={target === null ? null : (cells[target] ?? null)}
                  onFault={(fault) => target !== null && edit(toggleFault(draft, cells[target]!, fault))}
                  onReading={(gauge, value, override) =>
                    target !== null && edit(setReading(draft, cells[target]!, gauge, value, override))
                  }
                  onBack={toMarks}
                />
                <KeyHelp />
              </div>
            </div>
          </Section>
        )}
        <Section title="Beside the marks">
          <EndingFields draft={draft} errors={headErrors} onChange={edit} />
          {unfinished && draft.holds === 'marks' && (
            <Notice kind="bad">
              <p>{sayUnfinished(open.map(nameOf))}</p>
            </Notice>
          )}
          <div className="enter-send">
            <Button type="submit" kind="main" disabled={pending}>
              {pending ? 'Sending' : draft.amends ? 'Send the amendment' : 'Send the sheet'}
            </Button>
            <ScoreLine score={score} />
          </div>
        </Section>
      </form>
      {list}
      <p className="caution">{standard.cautions.join(' ')}</p>
    </Page>
  )
}

function AnswerSentence({ entry, sent }: { entry: Entry; sent: Exclude<Sent, { kind: 'refused' }> }) {
  if (sent.kind === 'stored') return sayStored(sent.stored, entry.draft.purpose === 'practice')
  if (sent.kind === 'taken') return 'An earlier version of this sheet is stored already.'
  return 'Not sent yet. It waits on this device and is tried again by itself.'
}

/** Puts the focus on the first match once the change that calls for it is drawn. */
const focusSoon = (selector: string) =>
  requestAnimationFrame(() => document.querySelector<HTMLElement>(`#main ${selector}`)?.focus())
