import { isolated } from '#calendar/isolate.ts'
import { addMeasure, type MeasureKind, moveMeasure } from '../../../domain/standards/edits/measure-edits.ts'
import { ListKeys } from '../../../ui/list-keys.tsx'
import { useOneStop } from '../../../ui/use-one-stop.ts'
import { AddByTitle } from './add-by-title.tsx'
import { type Editing, measureOf, type PartKey, partAt, partsOf, titleOfPart } from './editing.ts'
import { useDrag } from './use-drag.ts'

interface PartsListProps extends Editing {
  open: PartKey
  onOpen: (part: PartKey) => void
}

interface ListedProps extends PartsListProps {
  /** What makes all parts one stop of the Tab key. */
  stopAt: (part: PartKey) => object
}

/**
 * The parts of the standard, each with how much in it is to be put right; measures are added and put in order here. However
 * many there are, they are one stop of the Tab key: the part that is open.
 */
export function PartsList(props: PartsListProps) {
  const { list, thing } = useOneStop(partsOf(props.draft), props.open)
  const listed = { ...props, stopAt: thing }
  return (
    <nav className="draft-parts" aria-label="Parts of the standard" {...list}>
      <ListKeys
        id="draft-keys"
        more={
          <>
            with <kbd>Alt</kbd> they move a measure.
          </>
        }
      />
      <ul>
        <Part part="about" {...listed} />
        <Part part="rule" {...listed} />
      </ul>
      <Measures kind="majors" heading="Major measures" {...listed} />
      <Measures kind="minors" heading="Minor measures" {...listed} />
      <ul>
        <Part part="gauges" {...listed} />
        <Part part="calls" {...listed} />
        <Part part="publish" {...listed} />
      </ul>
    </nav>
  )
}

function Measures({ kind, heading, ...props }: ListedProps & { kind: MeasureKind; heading: string }) {
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

interface PartProps extends ListedProps {
  part: PartKey
  row?: object
}

function Part({ part, draft, problems, edit, open, onOpen, stopAt, row }: PartProps) {
  const measure = measureOf(part)
  const faults = problems.filter(({ pointer }) => partAt(draft, pointer) === part).length
  return (
    <li {...row}>
      <button
        type="button"
        className="draft-part"
        aria-current={part === open ? 'true' : undefined}
        aria-describedby="draft-keys"
        {...stopAt(part)}
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
