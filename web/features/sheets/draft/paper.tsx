import type { Standard } from '#contract/standards/standards.ts'
import { BlankSheet } from '../paper/blank-sheet.tsx'
import { CallList } from '../paper/call-list.tsx'
import '../paper/paper.css'

/** The paper of a draft as it prints. */
export default function Paper({ standard, arm }: { standard: Standard; arm: string | undefined }) {
  return (
    <>
      <BlankSheet standard={standard} arm={arm} />
      <CallList standard={standard} arm={arm} />
    </>
  )
}
