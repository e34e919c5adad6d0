import type { Standard } from '#contract/standards/standards.ts'
import { Section } from '../../../ui/section.tsx'
import { useMedia } from '../../../ui/use-media.ts'
import type { Assessment } from './assess-draft.ts'
import { endedAfter, isBeyondEnd } from './cells.ts'
import { KeyHelp } from './key-help.tsx'
import { placeAfter } from './key-marking.ts'
import { setAtCall, setFaults, setReading, toggleFault } from './mark-draft.ts'
import { MarkGrid } from './mark-grid.tsx'
import { MarkPanel } from './mark-panel.tsx'
import { ScoreLine } from './score-line.tsx'
import { TouchPad } from './touch-pad.tsx'
import type { useDesk } from './use-desk.ts'

interface MarksSectionProps {
  desk: ReturnType<typeof useDesk>
  standard: Standard
  assessment: Assessment
}

/** The marks: lines at the left; score, faults and readings at the right, or under the thumb on a narrow screen. */
export function MarksSection({ desk, standard, assessment }: MarksSectionProps) {
  const narrow = useMedia('(max-width: 61.99rem)')
  const { draft, marking, target, edit, goTo, toMarks } = desk
  const { scored, cells, score, wrong } = assessment
  const end = endedAfter(draft)
  const cell = target === null ? null : (cells[target] ?? null)
  const panel = (
    <MarkPanel
      standard={standard}
      draft={draft}
      target={cell}
      onFault={(fault) => cell && edit(toggleFault(draft, cell, fault))}
      onFaults={(codes) => cell && edit(setFaults(draft, cell, codes))}
      onReading={(gauge, value, override) => cell && edit(setReading(draft, cell, gauge, value, override))}
      onBack={toMarks}
    />
  )
  return (
    <Section title="Marks" note="line by line, in the order of the standard">
      <div className="enter-body">
        <MarkGrid
          standard={standard}
          marking={marking}
          target={target}
          score={score}
          wrong={wrong}
          beyondEnd={(place) => isBeyondEnd(place, scored.calls, end)}
          focusCount={desk.focusCount}
          onKey={desk.press}
          onPlace={(at) => goTo(at)}
          onAtCall={(code, typed) => edit(setAtCall(draft, code, typed))}
          onAtCallDone={() => goTo(placeAfter(scored, draft, marking.at), marking.at)}
        />
        {narrow ? (
          <TouchPad score={score} onKey={desk.press}>
            {panel}
          </TouchPad>
        ) : (
          <div className="enter-side">
            <ScoreLine score={score} />
            {panel}
            <KeyHelp />
          </div>
        )}
      </div>
    </Section>
  )
}
