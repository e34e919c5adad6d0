import type { SoldierDetail } from '#contract/soldiers/soldiers.ts'
import type { Standard } from '#contract/standards/standards.ts'
import { Notice } from '../../../ui/notice.tsx'
import { Page } from '../../../ui/page.tsx'
import type { Assessment } from './assess-draft.ts'
import type { Draft } from './draft.ts'
import { EndingPart } from './ending-part.tsx'
import { HeadPart } from './head-part.tsx'
import { MarksSection } from './marks-section.tsx'
import type { useDesk } from './use-desk.ts'

interface EntryFormProps {
  desk: ReturnType<typeof useDesk>
  /** Whether this browser keeps what is typed. */
  isKept: boolean
  head: {
    standards: readonly Standard[]
    candidate: SoldierDetail | undefined
    timeZone: string
    sponsorHint: string | undefined
  }
  standard: Standard
  assessment: Assessment
  onDiscard: () => void
  /** The other sheets of the pile. */
  children: React.ReactNode
}

/** The sheet on the desk, from its head to sending it. */
export function EntryForm({ desk, isKept, head, standard, assessment, onDiscard, children }: EntryFormProps) {
  const { draft } = desk
  const submit = () => void desk.submit(head.timeZone)
  return (
    <Page title="Enter a sheet" answer={formatTask(draft)} why={formatWhy(draft)} compact focusElsewhere>
      <form
        noValidate
        onSubmit={(event) => {
          event.preventDefault()
          submit()
        }}
        onKeyDown={(event) => {
          if (event.key !== 'Enter' || !(event.ctrlKey || event.metaKey)) return
          event.preventDefault()
          submit()
        }}
      >
        {!isKept && (
          <Notice kind="bad">
            <p>This browser keeps nothing on this device: send each sheet before you leave the page.</p>
          </Notice>
        )}
        {desk.problems.other.map((problem) => (
          <Notice key={problem} kind="bad">
            <p>{problem}</p>
          </Notice>
        ))}
        <HeadPart desk={desk} standard={standard} assessment={assessment} {...head} />
        {(draft.holds === 'marks' || draft.holds === 'void') && (
          <MarksSection desk={desk} standard={standard} assessment={assessment} />
        )}
        <EndingPart desk={desk} standard={standard} assessment={assessment} onDiscard={onDiscard} />
      </form>
      {children}
      <p className="caution">{standard.cautions.join(' ')}</p>
    </Page>
  )
}

const formatTask = ({ amends, purpose }: Draft): string => {
  if (amends) return 'Change what was entered wrong.'
  return purpose === 'practice'
    ? 'Type the practice as it stands on the paper.'
    : 'Type the sheet as it stands on the paper.'
}

const formatWhy = ({ amends, purpose }: Draft): string => {
  if (amends) return 'The stored sheet stays as a revision; this becomes the next one.'
  const practice = purpose === 'practice' ? 'Practice counts for nothing and enters no figure. ' : ''
  return `${practice}1 is correct, 0 is incorrect; the place moves on by itself. What is typed stays on this device until the server has it.`
}
