import { rowsPlot } from '../../charts/plot/rows-plot.ts'
import { shareAxis } from '../../charts/plot/share-axis.ts'
import { counted } from '../../words/format-number.ts'
import { formatCorrect, formatOneGrader } from './format-graders.ts'
import { type Grader, nameOf } from './graders-table.tsx'
import { Picture } from './picture.tsx'

const KINDS = {
  no: { key: 'can’t be told from the others', shape: 'disc', ink: 'ink' },
  few: { key: 'fewer than five attempts', shape: 'ring', ink: 'ink-3' },
  above: { key: 'stricter than chance allows', shape: 'down', ink: 'open' },
  below: { key: 'more lenient than chance allows', shape: 'up', ink: 'accent' },
} as const

interface GradersPictureProps {
  graders: readonly Grader[]
  /** Those of them who are in the picture. */
  drawn: readonly Grader[]
  /** What the average grader marks correct; null where that is not known. */
  usual: number | null
}

/** How strict each grader is beside the average one. */
export function GradersPicture({ graders, drawn, usual }: GradersPictureProps) {
  return (
    <Picture
      title="How strict each grader is"
      note={drawn.length < graders.length ? `${counted(drawn.length, 'grader')} of ${graders.length}` : 'by name'}
      plot={rowsPlot({
        rows: drawn.map((grader) => ({
          name: nameOf(grader),
          at: grader.correct?.rate ?? null,
          span: grader.correct,
          kind: grader.differs,
          says: [formatCorrect(grader, usual), formatOneGrader(grader)],
        })),
        across: shareAxis('correct of the same trials of an average candidate', 1),
        kinds: KINDS,
        spanKey: 'where the true share lies, with 95 % confidence',
        ...(usual === null ? {} : { against: [{ at: usual, key: 'the average grader' }] }),
      })}
      says="What each would mark correct of the same trials, so candidates and measures make no difference; drawn toward the average grader, the more the fewer the tests. A line across the average says that nothing can be told. Only a mark in another shape differs by more than chance allows over all graders together."
      file="graders"
      figures={{
        head: [
          'grade',
          'name',
          'attempts',
          'go',
          'severity_logits',
          'severity_low',
          'severity_high',
          'p',
          'adjusted_p',
          'graded_twice',
          'stricter',
          'more_lenient',
          'sign_test_p',
          'in_words',
        ],
        rows: graders.map((one) => [
          one.grade,
          one.name,
          one.attempts,
          one.passes,
          one.severity?.value ?? null,
          one.severity?.low ?? null,
          one.severity?.high ?? null,
          one.p,
          one.adjustedP,
          one.twice?.attempts ?? 0,
          one.twice?.stricter ?? null,
          one.twice?.lenient ?? null,
          one.twice?.p ?? null,
          formatOneGrader(one),
        ]),
      }}
    />
  )
}
