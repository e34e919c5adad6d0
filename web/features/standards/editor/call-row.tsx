import type { StandardBody } from '#contract/standards/standards.ts'
import { saying } from '../../../domain/standards/edits/call-said.ts'
import { replaced } from '../../../domain/standards/edits/list-edits.ts'
import { formatCall } from '../../../domain/standards/format-call.ts'
import { Button } from '../../../ui/button.tsx'
import { problemAt } from './draft-problems.ts'
import type { Editing } from './editing.ts'
import { SaidFields } from './said-fields.tsx'

interface CallRowProps extends Editing {
  at: number
  /** What its measure is called. */
  title: string
  /** What makes all calls one stop of the Tab key. */
  stop: object
  isOpen: boolean
  onOpen: () => void
  onKey: (event: React.KeyboardEvent) => void
  onMove: (to: number) => void
}

/** A call in its order; opened, it says something of its own. */
export function CallRow({ at, title, stop, isOpen, onOpen, onKey, onMove, ...editing }: CallRowProps) {
  const { draft, problems } = editing
  const call = draft.calls[at]!
  const problem = problemAt(problems, `/calls/${at}`, true)
  return (
    <>
      <button
        type="button"
        className="draft-call"
        data-call={at}
        aria-expanded={isOpen}
        aria-describedby="call-keys"
        {...stop}
        onKeyDown={onKey}
        onClick={onOpen}
      >
        <span className="draft-number">{at + 1}</span>
        <b>{formatCall(call) || title}</b>
        <span className="muted">
          {title}, {call.trial}
          {call.from && `, from ${call.from}`}
        </span>
      </button>
      {problem && <p className="draft-wrong">{problem}</p>}
      {isOpen && <OpenedCall at={at} onMove={onMove} {...editing} />}
    </>
  )
}

function OpenedCall({ draft, problems, edit, at, onMove }: Editing & Pick<CallRowProps, 'at' | 'onMove'>) {
  const call = draft.calls[at]!
  const set = (next: StandardBody['calls'][number], about?: string) =>
    edit({ ...draft, calls: replaced(draft.calls, at, next) }, about)
  const { readable: _readable, ...rest } = call
  return (
    <div className="draft-opened">
      <div className="draft-buttons">
        <Button kind="quiet" onClick={() => onMove(at - 1)}>
          Up
        </Button>
        <Button kind="quiet" onClick={() => onMove(at + 1)}>
          Down
        </Button>
        <Button kind="quiet" onClick={() => onMove(draft.calls.length - 1)}>
          To the end
        </Button>
        <label className="tick">
          <input
            type="checkbox"
            checked={call.readable !== false}
            onChange={(event) => set(event.target.checked ? rest : { ...rest, readable: false })}
          />
          Gauges are read here
        </label>
      </div>
      <SaidFields
        arms={draft.arms}
        said={call}
        problems={problems}
        pointers={[`/calls/${at}`]}
        onSaid={(said, field) => set(saying(call, said), `call ${at} ${field}`)}
      />
    </div>
  )
}
