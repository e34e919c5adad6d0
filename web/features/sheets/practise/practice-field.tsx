import type { Standard } from '#contract/standards/standards.ts'
import { TrialBars } from '../../../charts/trial-bars.tsx'
import type { Keeper } from '../../../device/sheet/sheet-keeper.ts'
import { useKeeping } from '../../../device/sheet/use-sheet-writer.ts'
import type { KeptPractice } from '../../../device/store/kept-practice.ts'
import { formatTried } from '../../../domain/coaching/format-practice.ts'
import { applyToPractice, isNotedOnLast, type PracticeEvent } from '../../../domain/coaching/running-practice.ts'
import { faultsToOffer, type NotedFaults } from '../../../domain/sheets/grading/fault-order.ts'
import { Button } from '../../../ui/button.tsx'
import { CallLines } from '../grade/call-card.tsx'
import { callLines } from '../grade/call-words.ts'
import { KeptLine } from '../grade/kept-line.tsx'
import { MoreBelow } from '../grade/more-below.tsx'
import { readSettings } from '../grade/settings.ts'
import { useWakeLock } from '../grade/use-wake-lock.ts'
import '../grade/grade.css'
import '../grade/field.css'
import '../grade/call.css'
import './practice.css'

interface PracticeFieldProps {
  standard: Standard
  keeper: Keeper<KeptPractice>
  noted: NotedFaults
  onClose: () => void
}

/** One chosen measure at a time, tried as often as one likes: the command above, faults in the middle, the marks under the thumb. */
export function PracticeField({ standard, keeper, noted, onClose }: PracticeFieldProps) {
  const { sheet: kept, problem, isSlow } = useKeeping(keeper)
  const { practice } = kept
  const { measures, at } = practice
  const { hand, vibrate } = readSettings()
  useWakeLock(true)
  const shown = measures[at]!
  const minor = standard.minors.find(({ code }) => code === shown.code)!
  const tap = (event: PracticeEvent) =>
    void keeper.change((before) => {
      const next = applyToPractice(before.practice, event)
      return next === before.practice ? before : { ...before, practice: next }
    })
  const mark = (which: 'correct' | 'incorrect') => {
    if (vibrate) navigator.vibrate?.(18)
    tap({ kind: 'mark', mark: which })
  }
  return (
    <main id="main" className={`grade grade-${hand}`}>
      <div className="grade-field">
        <header className="grade-head">
          <p className="grade-who">
            <b>
              <bdi>
                {practice.candidate.grade} {practice.candidate.familyName}
              </bdi>
            </b>
            {practice.arm && <span>{practice.arm}</span>}
            <span className="grade-practice">practice</span>
          </p>
          <KeptLine isSlow={isSlow} />
          <Button onClick={onClose}>{practice.marked.length > 0 ? 'Close' : 'Leave'}</Button>
          {problem !== '' && (
            <p className="grade-problem" role="alert">
              {problem}
            </p>
          )}
        </header>
        <p className="score-strip practice-count">
          <span>
            <b>{formatTried(shown)}</b>
          </span>
          <TrialBars marks={shown.trials.slice(-LATEST)} trials={0} height={26} />
        </p>
        <div className="call-area">
          <Measure standard={standard} minor={minor} arm={practice.arm}>
            <Faults measure={shown} minor={minor} standard={standard} noted={noted} onTap={tap} />
          </Measure>
          <div className="call-foot">
            <MoreBelow counts=".call-faults > li" one="more fault" many="more faults" of={at} />
          </div>
        </div>
        {measures.length > 1 && (
          <nav className="majors practice-way" aria-label="Measures">
            <Way to={at - 1} {...{ practice, standard, tap }} />
            <span>
              {at + 1} of {measures.length}
            </span>
            <Way to={at + 1} {...{ practice, standard, tap }} />
          </nav>
        )}
        <Marks hand={hand} last={lastMarked(practice, standard)} onMark={mark} onUndo={() => tap({ kind: 'undo' })} />
      </div>
    </main>
  )
}

/** So many of the latest trials are drawn. */
const LATEST = 12

type Minor = Standard['minors'][number]
type Practice = KeptPractice['practice']

/** What is said for a measure, where the standard gives a call of it, and what to look at. */
function Measure({
  standard,
  minor,
  arm,
  children,
}: {
  standard: Standard
  minor: Minor
  arm: string | null
  children: React.ReactNode
}) {
  const call = standard.calls.find(({ measure }) => measure === minor.code) ?? { measure: minor.code, trial: 1 }
  return (
    <div className="call">
      <div className="call-said">
        {call.from && <p className="call-where">from {call.from}</p>}
        <h1 className="call-name">{minor.title}</h1>
        {call.cadence && <p className="call-cadence">{call.cadence}</p>}
        <CallLines lines={callLines(call, minor, arm)} />
        {call.finish && call.finish.length > 0 && (
          <p className="call-finish">
            <span className="muted">then</span> {call.finish.join(' · ')}
          </p>
        )}
      </div>
      <div className="call-noted">{children}</div>
    </div>
  )
}

function Faults({
  measure,
  minor,
  standard,
  noted,
  onTap,
}: {
  measure: Practice['measures'][number]
  minor: Minor
  standard: Standard
  noted: NotedFaults
  onTap: (event: PracticeEvent) => void
}) {
  if (minor.faults.length === 0) return null
  const trial = measure.trials.length
  return (
    <>
      <p className="muted">{trial === 0 ? 'Mark a trial, then note its faults.' : `Faults of trial ${trial}`}</p>
      <ul className="call-faults" aria-label="Faults">
        {faultsToOffer(minor, standard.gauges, noted).map(({ code, title }) => (
          <li key={code}>
            <Button
              disabled={trial === 0}
              aria-pressed={isNotedOnLast(measure, code)}
              onClick={() => onTap({ kind: 'fault', fault: code })}
            >
              {title}
            </Button>
          </li>
        ))}
      </ul>
    </>
  )
}

/** To the measure before or after; none at either end. */
function Way({
  to,
  practice,
  standard,
  tap,
}: {
  to: number
  practice: Practice
  standard: Standard
  tap: (event: PracticeEvent) => void
}) {
  const measure = practice.measures[to]
  const isBack = to < practice.at
  if (!measure) return <span />
  const title = standard.minors.find(({ code }) => code === measure.code)?.title ?? measure.code
  return (
    <Button onClick={() => tap({ kind: 'show', at: to })}>
      {isBack && <span aria-hidden="true">‹ </span>}
      <span className="out-of-sight">{isBack ? 'Back to ' : 'On to '}</span>
      {title}
      {!isBack && <span aria-hidden="true"> ›</span>}
    </Button>
  )
}

/** The last mark in words: "Halt 3: incorrect"; '' before the first. */
const lastMarked = ({ measures, marked }: Practice, { minors }: Standard): string => {
  const measure = measures[marked.at(-1) ?? -1]
  if (!measure) return ''
  const title = minors.find(({ code }) => code === measure.code)?.title ?? measure.code
  return `${title} ${measure.trials.length}: ${measure.trials.at(-1)}`
}

function Marks({
  hand,
  last,
  onMark,
  onUndo,
}: {
  hand: 'right' | 'left'
  last: string
  onMark: (mark: 'correct' | 'incorrect') => void
  onUndo: () => void
}) {
  const buttons = [
    <Button
      key="undo"
      className="mark-undo"
      disabled={last === ''}
      aria-label={last === '' ? undefined : `Undo ${last}`}
      onClick={onUndo}
    >
      Undo
    </Button>,
    <Button key="incorrect" className="mark-incorrect" onClick={() => onMark('incorrect')}>
      <TrialBars marks={['incorrect']} trials={1} height={30} />
      Incorrect
    </Button>,
    <Button key="correct" kind="main" className="mark-correct" onClick={() => onMark('correct')}>
      <TrialBars marks={['correct']} trials={1} height={30} />
      Correct
    </Button>,
  ]
  return (
    <fieldset className="marks">
      <legend className="out-of-sight">Mark a trial</legend>
      {hand === 'right' ? buttons : buttons.reverse()}
    </fieldset>
  )
}
