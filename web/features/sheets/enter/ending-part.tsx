import type { Standard } from '#contract/standards/standards.ts'
import { formatUnfinished } from '../../../domain/sheets/format-score.ts'
import { Button } from '../../../ui/button.tsx'
import { Notice } from '../../../ui/notice.tsx'
import { Section } from '../../../ui/section.tsx'
import type { Assessment } from './assess-draft.ts'
import { type Cell, isMajor } from './cells.ts'
import { DiscardDraft } from './discard-draft.tsx'
import { EndingFields } from './ending-fields.tsx'
import { ScoreLine } from './score-line.tsx'
import type { useDesk } from './use-desk.ts'

interface EndingPartProps {
  desk: ReturnType<typeof useDesk>
  standard: Standard
  assessment: Assessment
  onDiscard: () => void
}

/** What the sheet says beside its marks, what is still open on it, and sending it. */
export function EndingPart({ desk, standard, assessment, onDiscard }: EndingPartProps) {
  const { draft, tried, pending, edit } = desk
  return (
    <Section title="Beside the marks">
      <EndingFields draft={draft} errors={assessment.head} onChange={edit} />
      {tried && assessment.open.length > 0 && (
        <Notice kind="bad">
          <p>{formatUnfinished(assessment.open.map((cell) => nameOfPlace(standard, cell)))}</p>
        </Notice>
      )}
      <div className="enter-send">
        <Button type="submit" kind="main" disabled={pending}>
          {pending ? 'Sending' : draft.amends ? 'Send the amendment' : 'Send the sheet'}
        </Button>
        <DiscardDraft draft={draft} onDiscard={onDiscard} />
        <ScoreLine score={assessment.score} />
      </div>
    </Section>
  )
}

/** What a place on the sheet is called: "Draw, trial 2", or a major measure's title. */
const nameOfPlace = ({ majors, minors }: Pick<Standard, 'majors' | 'minors'>, cell: Cell): string => {
  const title = [...majors, ...minors].find(({ code }) => code === cell.code)?.title ?? cell.code
  return isMajor(cell) ? title : `${title}, trial ${cell.trial}`
}
