import type { StandardBody } from '#contract/standards/standards.ts'
import { Button } from '../../../ui/button.tsx'
import { saveFile } from '../../../ui/save-file.ts'
import { Section } from '../../../ui/section.tsx'

/** Hands out a draft as it stands, in the layout in which files bring standards in. */
export const saveAsJson = (draft: StandardBody): void =>
  saveFile(
    `${draft.code}-version-${draft.version}.json`,
    new Blob([JSON.stringify([draft], null, 1)], { type: 'application/json' }),
  )

interface DraftFilesProps {
  id: string
  draft: StandardBody
  isSaved: boolean
}

/** The draft as a file, for another unit or to go on with elsewhere. */
export function DraftFiles({ draft }: DraftFilesProps) {
  return (
    <Section title="As a file" note="another unit takes it in under Import">
      <div className="draft-buttons">
        <Button onClick={() => saveAsJson(draft)}>JSON</Button>
      </div>
    </Section>
  )
}
