import { useMemo, useRef, useState } from 'react'
import type { Session } from '#contract/accounts/session.ts'
import type { Standard } from '#contract/standards/standards.ts'
import type { SheetKeeper } from '../../../device/sheet/sheet-keeper.ts'
import { useRunningReport } from '../../../device/sheet/use-running-report.ts'
import { useKeeping } from '../../../device/sheet/use-sheet-writer.ts'
import type { KeptSheet } from '../../../device/store/kept-sheet.ts'
import { applyEvent, isOutside } from '../../../domain/sheets/grading/apply-event.ts'
import { isMarkable } from '../../../domain/sheets/grading/calls.ts'
import { deskPath } from '../../../domain/sheets/grading/desk-path.ts'
import { isCeased, trialAt } from '../../../domain/sheets/grading/running-sheet.ts'
import { scoreSoFar, sheetBody } from '../../../domain/sheets/grading/sheet-body.ts'
import type { SheetEvent } from '../../../domain/sheets/grading/sheet-event.ts'
import { scoredStandard } from '../../../domain/sheets/scored-standard.ts'
import { CallCard } from './call-card.tsx'
import { CallStrip } from './call-strip.tsx'
import { callsToShow, sayCallAloud, sayTrial } from './call-words.ts'
import { Ceased } from './ceased.tsx'
import { Closing } from './closing.tsx'
import { MajorPanel } from './major-panel.tsx'
import { MajorsBar } from './majors-bar.tsx'
import { MarkButtons } from './mark-buttons.tsx'
import type { KeyDeed } from './marking-keys.ts'
import { More } from './more.tsx'
import { OverridePanel } from './override-panel.tsx'
import { Overview } from './overview.tsx'
import { ScoreRow } from './score-row.tsx'
import { keepSettings, readSettings } from './settings.ts'
import { SheetHeader } from './sheet-header.tsx'
import { useMarkingKeys } from './use-marking-keys.ts'
import { useWakeLock } from './use-wake-lock.ts'
import './grade.css'

interface RunningProps {
  account: Session
  standard: Standard
  keeper: SheetKeeper
  /** The sheet is closed and on the device: it may go out. */
  onClosed: () => void
}

type Over = 'overview' | 'more' | 'override' | { readonly major: string } | null

const VIBRATION_MS = 18

/** A test under way. Nothing moves while one grades: the command above, what to note in the middle, the marks under the thumb. */
export function Running({ account, standard, keeper, onClosed }: RunningProps) {
  const { sheet: kept, problem } = useKeeping(keeper)
  const { sheet } = kept
  const scored = useMemo(() => scoredStandard(standard), [standard])
  const calls = useMemo(() => callsToShow(standard, scored), [standard, scored])
  const [over, setOver] = useState<Over>(null)
  const [settings, setSettings] = useState(readSettings)
  const said = useRef<HTMLParagraphElement>(null)
  const page = useRef<HTMLElement>(null)
  useWakeLock(true)
  useRunningReport(kept.id, scored, sheet)

  const { at } = sheet
  const isOpen = at < calls.length && sheet.void === null
  // Written straight into the page: what is said aloud needs no second drawing of the sheet.
  const say = (text: string) => said.current?.replaceChildren(text)
  const now = () => new Date().toISOString()
  const tap = (event: SheetEvent) =>
    keeper
      .change((before) => {
        const next = applyEvent(scored, before.sheet, event, now())
        return next === before.sheet ? before : { ...before, sheet: next }
      })
      .then(() => {
        const after = keeper.shown().sheet.sheet
        if (event.kind === 'mark')
          say(`${sayTrial(standard, calls, event.call)}: ${event.mark}. ${sayCallAloud(standard, calls, after.at)}`)
        else if (event.kind === 'show') say(sayCallAloud(standard, calls, after.at))
      })
  const mark = (which: 'correct' | 'incorrect') => {
    if (!isMarkable(scored, sheet, at)) return
    const stands = trialAt(sheet, at).readings.some((one) => one.override === null && isOutside(scored, one))
    if (which === 'correct' && stands) return setOver('override')
    if (settings.vibrate) navigator.vibrate?.(VIBRATION_MS)
    void tap({ kind: 'mark', call: at, mark: which })
  }
  const close = () =>
    keeper
      .change((before): KeptSheet => {
        const body =
          before.sheet.head.candidate.id === null || before.sheet.head.secondOf !== null
            ? null
            : sheetBody(scored, before.sheet)
        return { ...before, state: 'waiting', closedAt: now(), body, message: '', refusedWith: null }
      })
      .then(onClosed)

  const act = (deed: KeyDeed) => {
    if (deed.kind === 'cease') return void tap({ kind: 'cease' })
    if (deed.kind === 'overview' || deed.kind === 'more') return setOver(deed.kind)
    if (deed.kind === 'major') {
      const major = standard.majors[deed.place]
      return major && setOver({ major: major.code })
    }
    if (deed.kind === 'step') return void tap({ kind: 'show', call: at + deed.by })
    if (!isOpen) return
    if (deed.kind === 'mark') mark(deed.mark)
    else if (deed.kind === 'clear') void tap({ kind: 'clear', call: trialAt(sheet, at).mark === null ? at - 1 : at })
    else if (deed.kind === 'readings') page.current?.querySelector<HTMLInputElement>('[data-reading]')?.focus()
    else if (deed.kind === 'fault') {
      const minor = standard.minors.find(({ code }) => code === calls[at]!.measure)
      const fault = minor?.faults[deed.place]
      if (fault) void tap({ kind: 'fault', call: at, fault: fault.code })
    }
  }
  useMarkingKeys(settings.keys, act)

  const leave = () => setOver(null)
  const cease = () => {
    leave()
    void tap({ kind: 'cease' })
  }
  const panel = { standard, scored, calls, sheet, onTap: tap, onClose: leave, onCease: cease }
  return (
    <main id="main" ref={page} className={`grade grade-${settings.hand}`}>
      <SheetHeader account={account} sheet={sheet} problem={problem} onMore={() => setOver('more')} />
      <ScoreRow score={scoreSoFar(scored, sheet)} />
      <CallStrip calls={calls.length} sheet={sheet} onOpen={() => setOver('overview')} />
      {isOpen ? (
        <CallCard key={at} standard={standard} calls={calls} sheet={sheet} withKeys={settings.keys} onTap={tap} />
      ) : (
        <Closing standard={standard} scored={scored} sheet={sheet} onTap={tap} onClose={close} />
      )}
      <MajorsBar standard={standard} sheet={sheet} onMajor={(major) => setOver({ major })} onCease={cease} />
      {isOpen && (
        <MarkButtons
          note={trialAt(sheet, at)}
          isMarkable={isMarkable(scored, sheet, at)}
          hand={settings.hand}
          onMark={mark}
        />
      )}
      <p ref={said} className="out-of-sight" aria-live="polite" />
      {isCeased(sheet) ? (
        <Ceased
          {...panel}
          onMajor={(major) => setOver({ major })}
          over={over !== null}
          onVoid={() => setOver('more')}
        />
      ) : null}
      {over === 'overview' && <Overview {...panel} />}
      {over === 'more' && (
        <More
          {...panel}
          leaveTo={deskPath(account)}
          settings={settings}
          onSettings={(next) => {
            keepSettings(next)
            setSettings(next)
          }}
        />
      )}
      {over === 'override' && <OverridePanel {...panel} />}
      {over !== null && typeof over === 'object' && <MajorPanel {...panel} major={over.major} />}
    </main>
  )
}
