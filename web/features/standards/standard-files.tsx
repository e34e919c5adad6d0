import type { StandardBody } from '#contract/standards/standards.ts'
import { standardFileAddress } from '../../api/imports/imports.ts'
import { saveFile } from '../../ui/save-file.ts'
import { Section } from '../../ui/section.tsx'
import './draft.css'

/** Hands out a draft as it stands on this page, in the layout in which files bring standards in. */
export const saveAsJson = (draft: StandardBody): void =>
  saveFile(
    `${draft.code}-version-${draft.version}.json`,
    new Blob([JSON.stringify([draft], null, 1)], { type: 'application/json' }),
  )

/** A version as a file, for another unit or to go on with in a spreadsheet. */
export function StandardFiles({ id, note }: { id: string; note?: string | undefined }) {
  return (
    <Section title="As a file" note={note}>
      <p className="standard-buttons">
        <a href={standardFileAddress(id, 'xlsx')} download>
          Spreadsheet
        </a>
        <a href={standardFileAddress(id, 'csv')} download>
          CSV
        </a>
        <a href={standardFileAddress(id, 'json')} download>
          JSON
        </a>
        <span className="muted">Another unit imports it under Import; there it is a draft.</span>
      </p>
    </Section>
  )
}
