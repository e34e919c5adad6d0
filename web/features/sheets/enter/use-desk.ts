import { useState } from 'react'
import { flushSync } from 'react-dom'
import type { Standard } from '#contract/standards/standards.ts'
import { type Assessment, assessDraft } from './assess-draft.ts'
import { type Draft, hasContent } from './draft.ts'
import type { Entry } from './entry-store.ts'
import { type Marking, pressKey, targetOf } from './key-marking.ts'
import { type PlacedProblems, placeProblems } from './place-problems.ts'
import type { Sent } from './send-entry.ts'
import { missingInHead, toBody } from './to-body.ts'
import type { useEntries } from './use-entries.ts'

const NO_PROBLEMS: PlacedProblems = { head: {}, cells: {}, other: [] }

/** What the server said to the sheet just sent; a refusal is shown on the sheet itself instead. */
export interface Answered {
  entry: Entry
  sent: Exclude<Sent, { kind: 'refused' }>
}

/** The sheet on the desk: the draft, where one is on it, what is wrong with it, and what became of sending it. */
export const useDesk = (entries: ReturnType<typeof useEntries>, standards: readonly Standard[], first: () => Draft) => {
  const [fresh, setFresh] = useState(first)
  const [place, setPlace] = useState<Pick<Marking, 'at' | 'last'>>({ at: 0, last: null })
  const [focusCount, setFocusCount] = useState(0)
  const [tried, setTried] = useState(false)
  const [problems, setProblems] = useState(NO_PROBLEMS)
  const [answer, setAnswer] = useState<Answered | null>(null)
  const [pending, setPending] = useState(false)

  const draft = entries.entries.find((entry) => entry.draft.id === fresh.id)?.draft ?? fresh
  const standard = standards.find(({ id }) => id === draft.standardId)
  const assessment: Assessment | null = standard ? assessDraft(draft, standard, tried, problems) : null
  const marking: Marking = { draft, ...place }
  const target = assessment && targetOf(marking, assessment.cells)

  /** Changes the sheet; it is kept on this device from the first thing typed. */
  const edit = (change: Partial<Draft>) => {
    const next = { ...draft, ...change }
    setProblems(NO_PROBLEMS)
    setFresh(next)
    if (hasContent(next)) entries.change(next)
    else entries.drop(next.id)
  }
  const toMarks = () => setFocusCount((count) => count + 1)
  const goTo = (at: number, last: number | null = null) => {
    setPlace({ at, last })
    toMarks()
  }
  /** Does what a key stands for on the sheet; false when it stands for nothing. */
  const press = (key: string): boolean => {
    const outcome = assessment && pressKey(assessment.scored, marking, key)
    if (!outcome) return false
    const { elsewhere, marking: next } = outcome
    // Drawn at once, so that the next key, however fast, finds the field it is for.
    flushSync(() => {
      setPlace({ at: next.at, last: next.last })
      if (next.draft !== draft) edit(next.draft)
    })
    if (elsewhere?.to === 'readings') focusOn('[data-reading]')
    if (elsewhere?.to === 'fault-numbers') focusOn('[data-fault-numbers]')
    if (elsewhere?.to === 'at-call') focusOn(`#call-${CSS.escape(elsewhere.code)}`)
    return true
  }

  const deliver = async (entry: Entry) => {
    setPending(true)
    const sent = await entries.send(entry)
    setPending(false)
    if (!sent || !entry.body) return
    if (sent.kind !== 'refused') {
      setAnswer({ entry, sent })
      return
    }
    const placed = placeProblems(sent.items, entry.body)
    const unplaced = sent.items.length === 0 || placed.other.length > 0
    setProblems({ ...placed, other: unplaced ? [...new Set([sent.message, ...placed.other])] : [] })
    setAnswer(null)
    focusSoon('[aria-invalid=true]')
  }
  /** Sends the sheet, or goes to what is missing. Times count in the candidate's zone. */
  const submit = async (timeZone: string) => {
    if (!standard || !assessment || pending) return
    setTried(true)
    if (Object.keys(missingInHead(draft, standard)).length > 0) focusSoon('[aria-invalid=true]')
    else if (assessment.blocking.length > 0) goTo(assessment.cells.indexOf(assessment.blocking[0]!))
    else await deliver({ draft, state: 'waiting', body: toBody(draft, standard, timeZone), message: '' })
  }
  /** Puts another sheet on the desk. */
  const begin = (next: Draft) => {
    setFresh(next)
    setPlace({ at: 0, last: null })
    setTried(false)
    setProblems(NO_PROBLEMS)
    setAnswer(null)
    focusSoon('.enter-candidate input')
  }
  return {
    draft,
    standard,
    assessment,
    marking,
    target,
    tried,
    problems,
    answer,
    pending,
    focusCount,
    edit,
    toMarks,
    goTo,
    press,
    submit,
    deliver,
    begin,
  }
}

/** Puts the focus on the first match within the page. */
const focusOn = (selector: string): void => document.querySelector<HTMLElement>(`#main ${selector}`)?.focus()

/** The same once the change that calls for it is drawn. */
const focusSoon = (selector: string): void => {
  requestAnimationFrame(() => focusOn(selector))
}
