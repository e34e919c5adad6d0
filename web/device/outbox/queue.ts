import type { SheetBody } from '#contract/sheets/sheets.ts'
import type { KeptSheet } from '../store/kept-sheet.ts'
import { type Sending, sendKept, type Wire } from './send-kept.ts'

/** How sending stands: `held up` until the next try, `signed out` or `another account` until somebody signs in. */
export interface QueueState {
  readonly phase: 'idle' | 'sending' | 'held up' | 'signed out' | 'another account'
  /** Why it does not go on, in words. */
  readonly message: string
  readonly nextTryAt: number | null
}

export interface QueueTools {
  readonly wire: Wire
  /** The id of the account that the server takes us for; null: signed out. Throws `NoAnswerError`. */
  signedIn(): Promise<string | null>
  read(): Promise<KeptSheet[]>
  change(id: string, change: (sheet: KeptSheet) => KeptSheet): Promise<unknown>
  /** Runs what is given unless another window is sending already. */
  alone(work: () => Promise<void>): Promise<void>
  now(): number
  later(work: () => void, milliseconds: number): () => void
  stored(sheet: KeptSheet): void
  /** How many check-ins and walk-ins wait; they go out before the sheets. Left out: none ever. */
  countDeeds?(): Promise<number>
  /** Sends them; throws where the outcome is not known. */
  sendPendingActions?(): Promise<unknown>
}

const FIRST_WAIT_MS = 5_000
const LONGEST_WAIT_MS = 300_000

const IDLE: QueueState = { phase: 'idle', message: '', nextTryAt: null }

/**
 * Sends the closed sheets of an account in the order in which they were closed, each under its own id until the server has
 * acknowledged it; nothing is taken off the device before. What is refused stays, with the reason, and lets the others
 * pass. Without an answer it waits and tries again, a little later each time; `goOn` tries at once.
 */
export const createQueue = (accountId: string, tools: QueueTools) => {
  let state = IDLE
  let running: Promise<void> | null = null
  let failures = 0
  let cancelTimer: () => void = () => undefined
  const listeners = new Set<() => void>()

  const say = (next: QueueState) => {
    state = next
    for (const listener of listeners) listener()
  }
  const wait = (phase: QueueState['phase'], message: string) => {
    const milliseconds = Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** failures)
    failures += 1
    cancelTimer()
    cancelTimer = tools.later(() => void start(), milliseconds)
    say({ phase, message, nextTryAt: tools.now() + milliseconds })
  }

  const keepOutcome = (sheet: KeptSheet, sending: Sending) =>
    tools.change(sheet.id, (kept) => {
      if (sending.kind === 'stored')
        return { ...kept, state: 'stored', message: '', refusedWith: null, answer: sending.answer }
      if (sending.kind === 'refused') {
        // What was refused was not stored, so the sheet may have another body once it is mended.
        return { ...kept, state: 'refused', message: sending.message, refusedWith: sending.status, body: null }
      }
      return { ...kept, message: sending.message, tries: kept.tries + 1 }
    })

  const sendAll = async () => {
    const waiting = (await tools.read()).filter((sheet) => sheet.state === 'waiting')
    if (waiting.length === 0 && !(await tools.countDeeds?.())) return say(IDLE)
    say({ phase: 'sending', message: '', nextTryAt: null })
    const signedIn = await tools.signedIn()
    if (signedIn === null) return wait('signed out', 'Sign in again, and they are sent.')
    if (signedIn !== accountId) return wait('another account', 'Another account is signed in on this device.')
    await tools.sendPendingActions?.()
    for (const sheet of waiting) {
      const fix = async (body: SheetBody) => {
        await tools.change(sheet.id, (kept) => ({ ...kept, body }))
      }
      const sending = await sendKept(sheet, tools.wire, fix)
      await keepOutcome(sheet, sending)
      if (sending.kind === 'stored') tools.stored(sheet)
      if (sending.kind === 'later') return wait('held up', sending.message)
      if (sending.kind === 'signed out') return wait('signed out', sending.message)
    }
    failures = 0
    say(IDLE)
  }

  const start = (): Promise<void> => {
    cancelTimer()
    running ??= tools
      .alone(sendAll)
      .catch((error: unknown) => wait('held up', error instanceof Error ? error.message : ''))
      .finally(() => {
        running = null
      })
    return running
  }

  return {
    /** Sends now what waits. */
    async goOn(): Promise<void> {
      failures = 0
      await running
      await start()
    },
    state: () => state,
    subscribe(listener: () => void) {
      listeners.add(listener)
      return () => {
        listeners.delete(listener)
      }
    },
    stop: () => cancelTimer(),
  }
}

export type Queue = ReturnType<typeof createQueue>
