import type { RunningSheet } from '../../../domain/sheets/grading/running-sheet.ts'
import { trialAt } from '../../../domain/sheets/grading/running-sheet.ts'

interface CallStripProps {
  calls: number
  sheet: RunningSheet
  /** Opens the list of all calls. */
  onOpen: () => void
}

/** All calls as one strip: tall and solid correct, short and hollow incorrect, a dot not called yet, the one that is shown framed. */
export function CallStrip({ calls, sheet, onOpen }: CallStripProps) {
  const marks = Array.from({ length: calls }, (_, call) => trialAt(sheet, call).mark)
  const marked = marks.filter((mark) => mark !== null).length
  return (
    <button
      type="button"
      className="call-strip"
      onClick={onOpen}
      aria-label={`All calls: ${marked} marked, ${calls - marked} to come`}
    >
      <span aria-hidden="true">
        {marks.map((mark, call) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a call is its place
          <i key={call} className={`${mark ?? 'blank'}${call === sheet.at ? ' now' : ''}`} />
        ))}
      </span>
    </button>
  )
}
