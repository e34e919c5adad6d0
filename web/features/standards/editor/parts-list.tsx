import { isolated } from '#calendar/isolate.ts'
import { addMeasure, type MeasureKind, moveMeasure } from '../../../domain/standards/edits/measure-edits.ts'
import { AddByTitle } from './add-by-title.tsx'
import { type Editing, measureOf, type PartKey, partAt, titleOfPart } from './editing.ts'
import { useDrag } from './use-drag.ts'

interface PartsListProps extends Editing {
  open: PartKey
  onOpen: (part: PartKey) => void
}

/** The parts of the standard, each with how much in it is to be put right; measures are added and put in order here. */
export function PartsList(props: PartsListProps) {
  return (
    <nav className="draft-parts" aria-label="Parts of the standard">
      <ul>
        <Part part="about" {...props} />
        <Part part="rule" {...props} />
      </ul>
      <Measures kind="majors" heading="Major measures" {...props} />
      <Measures kind="minors" heading="Minor measures" {...props} />
      <ul>
        <Part part="gauges" {...props} />
        <Part part="calls" {...props} />
        <Part part="publish" {...props} />
      </ul>
    </nav>
  )
}

function Measures({ kind, heading, ...props }: PartsListProps & { kind: MeasureKind; heading: string }) {
  const { draft, edit } = props
  const drag = useDrag((from, to) => edit(moveMeasure(draft, kind, draft[kind][from]!.code, to - from)))
  return (
    <>
      <h2>{heading}</h2>
      <ul>
        {draft[kind].map(({ code }, at) => (
          <Part key={code} part={`${kind}:${code}`} {...props} row={drag(at)} />
        ))}
      </ul>
      <AddByTitle
        label={kind === 'majors' ? 'New major measure' : 'New minor measure'}
        onAdd={(title) => edit(addMeasure(draft, kind, title).draft)}
      />
    </>
  )
}

function Part({ part, draft, problems, edit, open, onOpen, row }: PartsListProps & { part: PartKey; row?: object }) {
  const measure = measureOf(part)
  const faults = problems.filter(({ pointer }) => partAt(draft, pointer) === part).length
  return (
    <li {...row}>
      <button
        type="button"
        className="draft-part"
        aria-current={part === open ? 'true' : undefined}
        onClick={() => onOpen(part)}
        onKeyDown={(event) => {
          const by = event.altKey ? { ArrowUp: -1, ArrowDown: 1 }[event.key] : undefined
          if (!by || !measure) return
          event.preventDefault()
          edit(moveMeasure(draft, measure.kind, measure.code, by))
        }}
      >
        {isolated(titleOfPart(draft, part))}
        {faults > 0 && <span className="draft-faults">! {faults}</span>}
      </button>
    </li>
  )
}
