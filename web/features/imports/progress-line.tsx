import type { Import } from '#contract/imports/imports.ts'
import { Button } from '../../ui/button.tsx'
import { figure } from '../../words/format-number.ts'
import { formatStage } from './format-import.ts'

interface ProgressLineProps {
  job: Import
  cancelling: boolean
  onCancel: () => void
}

/** How far the work on a file has come, with a way to give it up. It goes on when the page is left. */
export function ProgressLine({ job: { stage, done, total }, cancelling, onCancel }: ProgressLineProps) {
  const said = `${formatStage(stage)}${total > 1 ? `: ${figure(done)} of ${figure(total)}` : ''}`
  return (
    <div className="import-progress">
      <progress aria-label="Work on the file" max={Math.max(total, 1)} value={total === 0 ? undefined : done} />
      <p>{said}</p>
      <Button disabled={cancelling} onClick={onCancel}>
        Cancel the import
      </Button>
    </div>
  )
}
