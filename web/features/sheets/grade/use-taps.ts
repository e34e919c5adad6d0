import { type RefObject, useEffect, useLayoutEffect, useRef } from 'react'
import type { Standard } from '#contract/standards/standards.ts'
import type { ScoredStandard } from '#scoring/types.ts'
import { rightNow } from '../../../api/server-clock.ts'
import type { SheetKeeper } from '../../../device/sheet/sheet-keeper.ts'
import { applyEvent, isOutside } from '../../../domain/sheets/grading/apply-event.ts'
import { isMarkable } from '../../../domain/sheets/grading/calls.ts'
import { type Step, trialAt } from '../../../domain/sheets/grading/running-sheet.ts'
import type { SheetEvent } from '../../../domain/sheets/grading/sheet-event.ts'
import { formatCallAloud } from './call-words.ts'
import { formatStep } from './format-step.ts'

/** Nobody has seen a call that was painted less long ago: such a tap is the bounce of the one before. */
const SEEN_AFTER_MS = 120
const VIBRATION_MS = 18
const SAID_FOR_MS = 2_500

interface TapsOf {
  keeper: SheetKeeper
  standard: Standard
  scored: ScoredStandard
  calls: Standard['calls']
  vibrate: boolean
  /** A mark and a reading contradict each other. */
  onContradiction: () => void
}

/**
 * What the grader's taps do. Each acts, or is seen not to: a mark that comes before the call could be seen marks nothing and says so.
 * Out: the taps, and what they are written to: the page, what is said aloud, what is shown for a moment.
 */
export const useTaps = ({ keeper, standard, scored, calls, vibrate, onContradiction }: TapsOf) => {
  const page = useRef<HTMLElement>(null)
  const aloud = useRef<HTMLParagraphElement>(null)
  const shown = useRef<HTMLParagraphElement>(null)
  const { at } = keeper.shown().sheet.sheet
  useFresh(page, at)
  const show = useBriefWords(shown)

  // Written straight into the page: what is said needs no second drawing of the sheet.
  const say = (text: string) => aloud.current?.replaceChildren(text)
  const tap = (event: SheetEvent) =>
    keeper.change((before) => {
      const next = applyEvent(scored, before.sheet, event, rightNow().toISOString())
      return next === before.sheet ? before : { ...before, sheet: next }
    })
  const goTo = async (event: SheetEvent, done: string) => {
    await tap(event)
    say(`${done}${done && '. '}${formatCallAloud(standard, calls, keeper.shown().sheet.sheet.at)}`)
  }
  const isTooSoon = () => {
    if (page.current?.dataset.fresh === undefined) return false
    show('Too soon after the last tap: nothing marked')
    say('Too soon after the last tap: nothing marked.')
    return true
  }
  const done = (event: SheetEvent, places: readonly number[]) =>
    formatStep(standard, calls, {
      number: 0,
      event,
      at,
      trials: Object.fromEntries(places.map((one) => [one, null])),
      majors: {},
    })

  return {
    page,
    aloud,
    shown,
    tap: (event: SheetEvent) => (event.kind === 'show' ? goTo(event, '') : tap(event)),
    mark(which: 'correct' | 'incorrect') {
      const { sheet } = keeper.taken()
      if (isTooSoon() || !isMarkable(scored, sheet, at)) return
      const stands = trialAt(sheet, at).readings.some((one) => one.override === null && isOutside(scored, one))
      if (which === 'correct' && stands) return onContradiction()
      if (vibrate) navigator.vibrate?.(VIBRATION_MS)
      const event = { kind: 'mark', call: at, mark: which } as const
      void goTo(event, done(event, [at]))
    },
    markRunning(running: readonly number[]) {
      if (isTooSoon()) return
      if (vibrate) navigator.vibrate?.(VIBRATION_MS)
      const event = { kind: 'marks', calls: running, mark: 'correct' } as const
      void goTo(event, done(event, running))
    },
    undo(step: Step) {
      const what = `Taken back: ${formatStep(standard, calls, step)}`
      show(what)
      void goTo({ kind: 'undo', step: step.number }, what)
    },
  }
}

/** While a call is too new to have been seen, the page says so by an attribute, and its marks by their look. */
const useFresh = (page: RefObject<HTMLElement | null>, at: number) => {
  // biome-ignore lint/correctness/useExhaustiveDependencies: runs at every new call
  useLayoutEffect(() => {
    const element = page.current
    if (!element) return
    element.dataset.fresh = ''
    const timer = setTimeout(() => delete element.dataset.fresh, SEEN_AFTER_MS)
    return () => clearTimeout(timer)
  }, [at, page])
}

/** Shows words for a moment, over the edge of the call, so that nothing moves. */
const useBriefWords = (place: RefObject<HTMLElement | null>) => {
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined)
  useEffect(() => () => clearTimeout(timer.current), [])
  return (words: string) => {
    clearTimeout(timer.current)
    place.current?.replaceChildren(words)
    timer.current = setTimeout(() => place.current?.replaceChildren(), SAID_FOR_MS)
  }
}
