import { useMemo, useState } from 'react'
import type { Standard } from '#contract/standards/standards.ts'
import type { SheetKeeper } from '../../../device/sheet/sheet-keeper.ts'
import { useKeeping } from '../../../device/sheet/use-sheet-writer.ts'
import { isMarkable, runningFrom } from '../../../domain/sheets/grading/calls.ts'
import { faultsToOffer, type NotedFaults } from '../../../domain/sheets/grading/fault-order.ts'
import { trialAt } from '../../../domain/sheets/grading/running-sheet.ts'
import { keepsOpen, scoreSoFar } from '../../../domain/sheets/grading/sheet-body.ts'
import type { SheetEvent } from '../../../domain/sheets/grading/sheet-event.ts'
import { lastStep } from '../../../domain/sheets/grading/steps.ts'
import { scoredStandard } from '../../../domain/sheets/scored-standard.ts'
import { Button } from '../../../ui/button.tsx'
import { CallCard } from './call-card.tsx'
import { callsToShow } from './call-words.ts'
import { Closing } from './closing.tsx'
import { MajorsBar } from './majors-bar.tsx'
import { MarkButtons } from './mark-buttons.tsx'
import type { KeyAction } from './marking-keys.ts'
import { MoreBelow } from './more-below.tsx'
import { type Over, OverField } from './over-field.tsx'
import { ScoreStrip } from './score-strip.tsx'
import { keepSettings, readSettings } from './settings.ts'
import { UndoButton } from './undo-button.tsx'
import { useMarkingKeys } from './use-marking-keys.ts'
import { useTaps } from './use-taps.ts'
import './grade.css'
import './field.css'
import './call.css'

interface RunningFieldProps {
  standard: Standard
  keeper: SheetKeeper
  /** What the unit is marked for: the likeliest faults are offered first. */
  noted: NotedFaults
  /** Whose sheet it is; `onMore` opens what is needed now and then. */
  header: (onMore: () => void) => React.ReactNode
  /** Where one goes who leaves the sheet for now; null: it is part of another page and takes no keys outside itself. */
  leaveTo: string | null
  /** Under More, to put right who is tested. */
  whoIsTested?: (onTap: (event: SheetEvent) => Promise<void>) => React.ReactNode
  onClose: () => void
}

const COUNTS = ['', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine']

/** The first reading that can be typed; one that is not open yet is opened, which puts the focus there. */
const readNext = (page: HTMLElement | null) => {
  const field = page?.querySelector<HTMLElement>('[data-reading]')
  if (field) field.focus()
  else page?.querySelector<HTMLElement>('[data-measure]')?.click()
}

/** A test under way. Nothing moves while one grades: the command above, what to note in the middle, the marks under the thumb. */
export function RunningField({ standard, keeper, noted, header, leaveTo, whoIsTested, onClose }: RunningFieldProps) {
  const { sheet: kept } = useKeeping(keeper)
  const { sheet } = kept
  const scored = useMemo(() => scoredStandard(standard), [standard])
  const calls = useMemo(() => callsToShow(standard, scored), [standard, scored])
  const score = useMemo(() => scoreSoFar(scored, sheet), [scored, sheet])
  const [over, setOver] = useState<Over>(null)
  const [settings, setSettings] = useState(readSettings)
  const { page, aloud, shown, tap, mark, markRunning, undo } = useTaps({
    keeper,
    standard,
    scored,
    calls,
    vibrate: settings.vibrate,
    onContradiction: () => setOver('override'),
  })

  const { at } = sheet
  const isOpen = at < calls.length && sheet.void === null
  const running = isOpen ? runningFrom(scored, sheet, at) : []
  const isMeasured = (call: number) =>
    settings.readings === 'every trial' &&
    calls[call]?.readable !== false &&
    standard.minors.some(({ code, gauges }) => code === calls[call]?.measure && gauges.length > 0)
  const together = running.some(isMeasured) ? [] : running
  const last = lastStep(sheet)

  const act = (action: KeyAction) => {
    if (action.kind === 'cease') return void tap({ kind: 'cease' })
    if (action.kind === 'overview' || action.kind === 'more') return setOver(action.kind)
    if (action.kind === 'undo') return last && undo(last)
    if (action.kind === 'major') {
      const major = standard.majors[action.place]
      return major && setOver({ major: major.code })
    }
    if (action.kind === 'step') return void tap({ kind: 'show', call: at + action.by })
    if (!isOpen) return
    if (action.kind === 'mark') mark(action.mark)
    else if (action.kind === 'all correct' && together.length > 0) markRunning(together)
    else if (action.kind === 'readings') readNext(page.current)
    else if (action.kind === 'fault') {
      const minor = standard.minors.find(({ code }) => code === calls[at]!.measure)
      const fault = minor && faultsToOffer(minor, standard.gauges, noted)[action.place]
      if (fault) void tap({ kind: 'fault', call: at, fault: fault.code })
    }
  }
  const isPart = leaveTo === null
  useMarkingKeys(settings, act, isPart ? page : null)

  const leave = () => setOver(null)
  const cease = () => {
    leave()
    void tap({ kind: 'cease' })
  }
  const panel = { standard, scored, calls, sheet, onTap: tap, onClose: leave, onCease: cease }
  const back = { standard, calls, last, onUndo: undo }
  const Box = isPart ? 'div' : 'main'
  const heading = isPart ? 'h2' : 'h1'
  return (
    <Box id={isPart ? undefined : 'main'} ref={page as never} className={`grade grade-${settings.hand}`}>
      <div className="grade-field">
        {header(() => setOver('more'))}
        <ScoreStrip calls={calls.length} sheet={sheet} score={score} onOpen={() => setOver('overview')} />
        <div className="call-area">
          {isOpen ? (
            <CallCard
              heading={heading}
              standard={standard}
              calls={calls}
              sheet={sheet}
              settings={settings}
              noted={noted}
              onTap={tap}
            />
          ) : (
            <Closing heading={heading} standard={standard} scored={scored} sheet={sheet} onTap={tap} />
          )}
          <div className="call-foot">
            {isOpen && <MoreBelow counts=".call-faults > li" one="more fault" many="more faults" of={at} />}
            {together.length > 0 && (
              <Button className="call-all" onClick={() => markRunning(together)}>
                {together.length === standard.rule.trials ? 'All' : 'The other'} {COUNTS[together.length]} correct
              </Button>
            )}
          </div>
          <p ref={shown} className="tap-says" aria-hidden="true" />
        </div>
        <MajorsBar standard={standard} sheet={sheet} onMajor={(major) => setOver({ major })} onCease={cease} />
        {isOpen ? (
          <MarkButtons
            {...back}
            note={trialAt(sheet, at)}
            isMarkable={isMarkable(scored, sheet, at)}
            hand={settings.hand}
            onMark={mark}
          />
        ) : (
          <div className="closing-buttons">
            <UndoButton {...back} />
            {keepsOpen(scored, sheet).length === 0 && (
              <Button kind="main" onClick={onClose}>
                I graded this: close the sheet
              </Button>
            )}
          </div>
        )}
      </div>
      <p ref={aloud} className="out-of-sight" aria-live="polite" />
      <OverField
        panel={panel}
        over={over}
        onOver={setOver}
        walkIn={over === 'more' && whoIsTested?.(tap)}
        leaveTo={leaveTo}
        settings={settings}
        onSettings={(next) => {
          keepSettings(next)
          setSettings(next)
        }}
      />
    </Box>
  )
}
