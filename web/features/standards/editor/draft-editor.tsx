import { useState } from 'react'
import { isolated } from '#calendar/isolate.ts'
import type { Standard, StandardBody } from '#contract/standards/standards.ts'
import { useMedia } from '../../../ui/use-media.ts'
import type { DraftKeeper, DraftView } from './draft-keeper.ts'
import { measureOf, type PartKey, partAt, partsOf, titleOfPart } from './editing.ts'
import { KeptLine } from './kept-line.tsx'
import { OpenedPart } from './opened-part.tsx'
import { PartsList } from './parts-list.tsx'
import { Preview, type Sheets } from './preview.tsx'
import './editor.css'

interface DraftEditorProps {
  stored: Standard
  view: DraftView
  keeper: DraftKeeper
  sheets: Sheets
  publish: React.ReactNode
}

/** The call at which a measure is first called; that of the last one looked at where the part is about none. */
const firstCall = (draft: StandardBody, part: PartKey): number =>
  Math.max(
    0,
    draft.calls.findIndex(({ measure }) => measure === measureOf(part)?.code),
  )

/** A standard written on one page: its parts, the fields of the opened one, and beside them what a grader will have. */
export function DraftEditor({ stored, view, keeper, sheets, publish }: DraftEditorProps) {
  const draft = view.history.present
  const [asked, setOpen] = useState<PartKey>('about')
  const [at, setAt] = useState(0)
  const isWide = useMedia('(min-width: 64rem)')
  const open = partsOf(draft).includes(asked) ? asked : 'about'
  const show = (part: PartKey) => {
    setOpen(part)
    setAt(firstCall(draft, part))
  }
  const editing = { draft, problems: view.problems, edit: keeper.edit }
  const list = <PartsList {...editing} open={open} onOpen={show} />
  const standard = { ...draft, id: stored.id, publishedAt: null }
  const preview = <Preview standard={standard} at={at} {...sheets} />
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: keys of the whole editor, besides its buttons
    <div
      className="draft"
      onKeyDown={(event) => {
        const key = event.key.toLowerCase()
        if (!(event.ctrlKey || event.metaKey) || (key !== 'z' && key !== 'y')) return
        event.preventDefault()
        if (key === 'y' || event.shiftKey) keeper.redo()
        else keeper.undo()
      }}
    >
      <div className="draft-bar">
        <KeptLine view={view} keeper={keeper} onFault={() => show(partAt(draft, view.problems[0]!.pointer))} />
      </div>
      {isWide ? (
        list
      ) : (
        <details className="disclosure" key={open}>
          <summary>
            <span>Parts</span>
            <span className="disclosure-note">{isolated(titleOfPart(draft, open))}</span>
          </summary>
          {list}
        </details>
      )}
      <OpenedPart {...editing} open={open} publish={publish} onOpen={show} onCall={setAt} />
      {isWide ? (
        preview
      ) : (
        <details className="disclosure">
          <summary>
            <span>As a grader will have it</span>
          </summary>
          {preview}
        </details>
      )}
    </div>
  )
}
