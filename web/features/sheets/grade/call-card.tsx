import type { Standard } from '#contract/standards/standards.ts'
import { TrialBars } from '../../../charts/trial-bars.tsx'
import { runOf } from '../../../domain/sheets/grading/calls.ts'
import { faultsToOffer, type NotedFaults } from '../../../domain/sheets/grading/fault-order.ts'
import { type RunningSheet, trialAt } from '../../../domain/sheets/grading/running-sheet.ts'
import type { SheetEvent } from '../../../domain/sheets/grading/sheet-event.ts'
import { Button } from '../../../ui/button.tsx'
import { rowsOfCall } from './call-room.ts'
import { type CallLine, callLines, formatTrial, formatWhere } from './call-words.ts'
import { Gauges } from './gauges.tsx'
import type { Settings } from './settings.ts'

interface CallCardProps {
  /** The heading of the page, or of a part of one. */
  heading: 'h1' | 'h2'
  standard: Standard
  calls: Standard['calls']
  sheet: RunningSheet
  settings: Settings
  noted: NotedFaults
  onTap: (event: SheetEvent) => void
}

/** The call that is next: what to say and in which order, what to look at, and what to note. A run stands on one page. */
export function CallCard({ heading: Heading, standard, calls, sheet, settings, noted, onTap }: CallCardProps) {
  const { at } = sheet
  const call = calls[at]!
  const minor = standard.minors.find(({ code }) => code === call.measure)!
  const note = trialAt(sheet, at)
  const run = runOf(calls, at)
  const gauges =
    call.readable === false ? [] : minor.gauges.flatMap((one) => standard.gauges.find(({ code }) => code === one) ?? [])
  const lines = callLines(call, minor, sheet.head.arm)
  const faults = faultsToOffer(minor, standard.gauges, noted)
  const rows = rowsOfCall({ lines, call, run: run.length, gauges: gauges.length, faults })
  return (
    <div className="call" style={{ '--rows': rows } as React.CSSProperties}>
      <div className="call-said">
        <p className="call-where">
          {formatWhere(calls, at)}
          {note.mark && <b> · marked {note.mark}</b>}
        </p>
        <Heading className="call-name">{formatTrial(standard, calls, at)}</Heading>
        {call.cadence && <p className="call-cadence">{call.cadence}</p>}
        <CallLines lines={lines} />
        {run.length > 1 && <Run calls={calls} run={run} sheet={sheet} onTap={onTap} />}
        {call.finish && call.finish.length > 0 && (
          <p className="call-finish">
            <span className="muted">then</span> {call.finish.join(' · ')}
          </p>
        )}
      </div>
      <div className="call-noted">
        {gauges.length > 0 && (
          <Gauges
            key={at}
            gauges={gauges}
            note={note}
            areOpen={settings.readings === 'every trial'}
            onReading={(gauge, value) => onTap({ kind: 'reading', call: at, gauge, value })}
          />
        )}
        {faults.length > 0 && (
          <ul className="call-faults" aria-label="Faults">
            {faults.map(({ code, title }, place) => (
              <li key={code}>
                <Button
                  aria-pressed={note.faults.includes(code)}
                  onClick={() => onTap({ kind: 'fault', call: at, fault: code })}
                >
                  {settings.keys && <kbd>{String.fromCharCode(97 + place)}</kbd>}
                  {title}
                </Button>
              </li>
            ))}
          </ul>
        )}
      </div>
    </div>
  )
}

/** What is said, and below each line what is looked at; "stand by" stands before the line it belongs to. */
export function CallLines({ lines }: { lines: readonly CallLine[] }) {
  return (
    <ol className="call-lines">
      {lines.map(({ kind, text, execution, look }, place) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: lines keep their order
        <li key={place} className={kind === 'command' ? 'call-command' : 'call-stand-by'}>
          <span>
            {execution !== '' && text !== execution ? `${text}, ` : text}
            {execution !== '' && <b>{execution}</b>}
          </span>
          {look.length > 0 && (
            <ul className="call-look" aria-label="Look at">
              {look.map((title) => (
                <li key={title}>{title}</li>
              ))}
            </ul>
          )}
        </li>
      ))}
    </ol>
  )
}

/** An unbroken run: its parts are carried out without a stop and marked one after the other. */
function Run({ calls, run, sheet, onTap }: Pick<CallCardProps, 'calls' | 'sheet' | 'onTap'> & { run: number[] }) {
  return (
    <div className="call-run">
      <p className="muted">Without a stop; mark when all {run.length} are done:</p>
      <ol>
        {run.map((call) => {
          const { mark } = trialAt(sheet, call)
          return (
            <li key={call}>
              <Button
                aria-current={call === sheet.at ? 'step' : undefined}
                onClick={() => onTap({ kind: 'show', call })}
              >
                <TrialBars marks={[mark]} trials={1} height={20} />
                {calls[call]!.steps?.join(', ') ?? `Trial ${calls[call]!.trial}`}
                <span className="muted">{mark ?? (call === sheet.at ? 'now' : '')}</span>
              </Button>
            </li>
          )
        })}
      </ol>
    </div>
  )
}
