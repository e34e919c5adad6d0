import type { SheetDetail } from '#contract/sheets/sheets.ts'
import type { Standard } from '#contract/standards/standards.ts'
import { MeasureList } from '../../parts/sheets/measure-list.tsx'
import { Section } from '../../ui/section.tsx'

interface MarksPartProps {
  /** The version the sheet was taken under; undefined: not among those one can see. */
  standard: Standard | undefined
  revision: SheetDetail['revisions'][number]
}

/** Measure by measure, as the revision has it. */
export function MarksPart({ standard, revision }: MarksPartProps) {
  const { body, result } = revision
  return (
    <Section
      title="Measures"
      note={standard?.rule && `GO with ${standard.rule.needed} of ${standard.rule.trials} correct`}
    >
      {result.ending === 'recorded' ? (
        <p>The paper record held the outcome and no marks.</p>
      ) : standard ? (
        <MeasureList standard={standard} body={body} result={result} />
      ) : (
        <p>
          Version {body.standardVersion} of {body.standard} is not among the standards you can see.
        </p>
      )}
    </Section>
  )
}
