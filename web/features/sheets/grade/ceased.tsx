import { Button } from '../../../ui/button.tsx'
import { Panel } from '../../../ui/panel.tsx'
import { formatUnitTime } from '../../../words/format-zone.ts'
import type { PanelProps } from './panel-props.ts'

interface CeasedProps extends PanelProps {
  onMajor: (code: string) => void
  onVoid: () => void
}

/** Everything stands still. It goes on, or ends void or with a major NO-GO. */
export function Ceased({ standard, sheet, onTap, onMajor, onVoid }: CeasedProps) {
  if (sheet.void) return null
  const since = sheet.pauses.at(-1)!.from
  return (
    <Panel title="CEASE" className="ceased">
      <p className="ceased-say">Everyone stops, and stays as they are until the grader says so.</p>
      <p className="muted">Since {formatUnitTime(since)}; the time is on the sheet.</p>
      <div className="panel-buttons">
        <Button kind="main" onClick={() => onTap({ kind: 'resume' })}>
          All is safe: go on with the test
        </Button>
        <Button onClick={onVoid}>End the test void</Button>
        {standard.majors.map(({ code, title }) => (
          <Button key={code} onClick={() => onMajor(code)}>
            {title}: NO-GO
          </Button>
        ))}
      </div>
    </Panel>
  )
}
