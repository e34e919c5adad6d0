import { withoutIsolates } from '#calendar/isolate.ts'
import type { Standard, StandardBody } from '#contract/standards/standards.ts'
import { definitionStamp } from '#standards/definition-stamp.ts'
import { ApiError } from '../../../api/errors.ts'
import { begun, changed, type History, redone, undone } from '../../../domain/standards/edits/history.ts'
import { type DraftProblem, draftProblems } from './draft-problems.ts'

/** Where the draft is safe: on the server; on its way; on this device alone, because of a fault, of the network, or of somebody else. */
export type Kept = 'saved' | 'saving' | 'faulty' | 'unsent' | 'clash'

export interface DraftView {
  readonly history: History<StandardBody>
  readonly problems: readonly DraftProblem[]
  readonly kept: Kept
  /** Why it could not be sent. */
  readonly error: Error | null
}

/** What this device keeps of a draft until the server has it. */
export interface KeptDraft {
  readonly seen: string
  readonly body: StandardBody
}

interface Places {
  /** Keeps it on this device; null: no more. */
  readonly keep: (draft: KeptDraft | null) => void
  /** Sends it to the server, which refuses it where it says something else than what was seen. */
  readonly send: (body: StandardBody, seen: string) => Promise<Standard>
  readonly onSaved: (saved: Standard) => void
}

const PAUSE_MS = 700
const AGAIN_MS = 5_000

export const bodyOf = ({ id: _id, publishedAt: _at, ...body }: Standard): StandardBody => body

/** The stamp by which the server knows what a draft said. */
const stampOf = (body: StandardBody): string => definitionStamp(JSON.parse(withoutIsolates(JSON.stringify(body))))

/**
 * Keeps a draft while it is written: each change on this device at once, on the server as soon as it is sound and one
 * pauses. In: the draft as the server has it, and what this device still had. Where both were changed, somebody has to choose.
 */
export function createDraftKeeper(stored: Standard, left: KeptDraft | null, { keep, send, onSaved }: Places) {
  let saved = bodyOf(stored)
  let seen = stampOf(saved)
  let timer: ReturnType<typeof setTimeout> | undefined
  let sending: Promise<void> | null = null
  const first = left && left.seen === seen ? changed(begun(saved), left.body) : begun(left?.body ?? saved)
  let view: DraftView = { history: first, problems: draftProblems(first.present), kept: 'saved', error: null }
  const listeners = new Set<() => void>()

  const show = (next: Partial<DraftView>) => {
    view = { ...view, ...next }
    for (const listener of listeners) listener()
  }
  const isSaved = () => JSON.stringify(view.history.present) === JSON.stringify(saved)
  const save = async () => {
    while (view.kept !== 'clash' && view.problems.length === 0 && !isSaved()) {
      const body = view.history.present
      show({ kept: 'saving', error: null })
      try {
        const answer = await send(body, seen)
        saved = body
        seen = stampOf(bodyOf(answer))
        onSaved(answer)
        keep(isSaved() ? null : { seen, body: view.history.present })
      } catch (error) {
        const isClash = error instanceof ApiError && error.is('draft-changed')
        if (!isClash && !(error instanceof ApiError)) timer = setTimeout(start, AGAIN_MS)
        return show({ kept: isClash ? 'clash' : 'unsent', error: error instanceof Error ? error : null })
      }
    }
    if (view.kept !== 'clash') show({ kept: view.problems.length > 0 ? 'faulty' : 'saved' })
  }
  const start = (): Promise<void> => {
    clearTimeout(timer)
    sending ??= save().finally(() => {
      sending = null
    })
    return sending
  }
  const go = (history: History<StandardBody>) => {
    if (history === view.history) return
    const problems = history.present === view.history.present ? view.problems : draftProblems(history.present)
    clearTimeout(timer)
    show({ history, problems, ...(view.kept !== 'clash' && { kept: problems.length > 0 ? 'faulty' : 'saving' }) })
    keep(isSaved() ? null : { seen, body: history.present })
    timer = setTimeout(start, PAUSE_MS)
  }
  if (left && left.seen !== seen) view = { ...view, kept: 'clash' }
  else if (left) void start()

  return {
    shown: () => view,
    subscribe(listener: () => void) {
      listeners.add(listener)
      return () => {
        listeners.delete(listener)
      }
    },
    /** A change; further ones about the same are one step to take back. */
    edit: (next: StandardBody, about?: string) => go(changed(view.history, next, about)),
    undo: () => go(undone(view.history)),
    redo: () => go(redone(view.history)),
    /** Sends now what is sound and not saved. */
    save: start,
    /** Somebody else changed the draft: takes what they wrote, or puts one's own over it. */
    settle(theirs: Standard, which: 'theirs' | 'mine') {
      saved = bodyOf(theirs)
      seen = stampOf(saved)
      const history = which === 'theirs' ? changed(view.history, saved) : view.history
      show({ history, problems: draftProblems(history.present), kept: 'saving', error: null })
      keep(isSaved() ? null : { seen, body: history.present })
      return start()
    },
    /** The page is left; what was not sent stays on this device. */
    stop: () => clearTimeout(timer),
  }
}

export type DraftKeeper = ReturnType<typeof createDraftKeeper>
