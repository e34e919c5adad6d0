import type { RecordLine } from './record-lines.ts'
import './record-list.css'

/** What is on record beside the sheets, the newest first. */
export function RecordList({ lines }: { lines: readonly RecordLine[] }) {
  return (
    <ul className="record-list">
      {lines.map(({ on, what, note }) => (
        <li key={`${on} ${what}`}>
          <bdi>{what}</bdi>
          {note && (
            <span className="muted">
              <bdi>{note}</bdi>
            </span>
          )}
        </li>
      ))}
    </ul>
  )
}
