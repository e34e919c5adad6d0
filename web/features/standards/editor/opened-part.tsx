import { useEffect, useRef } from 'react'
import { isolated } from '#calendar/isolate.ts'
import { moveMeasure, removeMeasure } from '../../../domain/standards/edits/measure-edits.ts'
import { Button } from '../../../ui/button.tsx'
import { AboutPart } from './about-part.tsx'
import { CallsPart } from './calls-part.tsx'
import { type Editing, measureOf, type PartKey, partsOf, titleOfPart } from './editing.ts'
import { GaugesPart } from './gauges-part.tsx'
import { MajorPart } from './major-part.tsx'
import { MinorPart } from './minor-part.tsx'
import { RulePart } from './rule-part.tsx'

interface OpenedPartProps extends Editing {
  open: PartKey
  /** What publishing shows and does; files of the draft. */
  publish: React.ReactNode
  onOpen: (part: PartKey) => void
  onCall: (at: number) => void
}

/** The fields of the opened part, and the way to the next one: Tab through the fields, Enter, and so on to the end. */
export function OpenedPart({ open, publish, onOpen, onCall, ...editing }: OpenedPartProps) {
  const { draft, edit } = editing
  const box = useRef<HTMLElement>(null)
  const isFirst = useRef(true)
  // biome-ignore lint/correctness/useExhaustiveDependencies: runs when another part is opened
  useEffect(() => {
    if (!isFirst.current) box.current?.querySelector<HTMLElement>('input, select, textarea, button')?.focus()
    isFirst.current = false
  }, [open])
  const parts = partsOf(draft)
  const next = parts[parts.indexOf(open) + 1]
  const measure = measureOf(open)
  return (
    <section
      ref={box}
      className="draft-open"
      aria-labelledby="draft-open"
      onKeyDown={(event) => {
        if (event.key !== 'Enter' || !(event.ctrlKey || event.metaKey) || !next) return
        event.preventDefault()
        onOpen(next)
      }}
    >
      <div className="draft-open-head">
        <h2 id="draft-open">{isolated(titleOfPart(draft, open))}</h2>
        {measure && <span className="muted">{measure.kind === 'majors' ? 'major' : 'minor'}</span>}
      </div>
      <Fields open={open} publish={publish} onCall={onCall} {...editing} />
      <div className="draft-buttons draft-foot">
        {next && (
          <Button kind="main" onClick={() => onOpen(next)}>
            Next: {isolated(titleOfPart(draft, next))}
          </Button>
        )}
        {measure && (
          <>
            <Button kind="quiet" onClick={() => edit(moveMeasure(draft, measure.kind, measure.code, -1))}>
              Up
            </Button>
            <Button kind="quiet" onClick={() => edit(moveMeasure(draft, measure.kind, measure.code, 1))}>
              Down
            </Button>
            <Button
              kind="quiet"
              onClick={() => {
                onOpen(next ?? 'about')
                edit(removeMeasure(draft, measure.kind, measure.code))
              }}
            >
              Remove this measure
            </Button>
          </>
        )}
      </div>
    </section>
  )
}

function Fields({ open, publish, onCall, ...editing }: Omit<OpenedPartProps, 'onOpen'>) {
  const measure = measureOf(open)
  if (measure) {
    const at = editing.draft[measure.kind].findIndex(({ code }) => code === measure.code)
    return measure.kind === 'majors' ? (
      <MajorPart key={open} at={at} {...editing} />
    ) : (
      <MinorPart key={open} at={at} {...editing} />
    )
  }
  if (open === 'rule') return <RulePart {...editing} />
  if (open === 'gauges') return <GaugesPart {...editing} />
  if (open === 'calls') return <CallsPart onCall={onCall} {...editing} />
  return open === 'publish' ? publish : <AboutPart {...editing} />
}
